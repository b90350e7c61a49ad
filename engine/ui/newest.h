// A thread that carries out the newest job it was given: one that waits is replaced, one under way
// is told to leave off. Its result is taken by whoever asks.
#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace keystead::ui {

template <class Job, class Made>
class Newest {
public:
    using Stop = std::function<bool()>;
    using Show = std::function<void(Made)>;
    /// Hands results over as it goes, even if a newer job waits meanwhile.
    using Work = std::function<void(const Job&, const Stop&, const Show&)>;

    /// `wake` is called from the thread when there is something to take.
    Newest(Work work, std::function<void()> wake)
        : work_(std::move(work))
        , wake_(std::move(wake))
        , thread_([this] { run(); }) {}
    ~Newest() {
        {
            const std::lock_guard lock(mutex_);
            closing_ = true;
        }
        changed_.notify_all();
        thread_.join();
    }
    Newest(const Newest&) = delete;
    Newest& operator=(const Newest&) = delete;

    void ask(Job job) {
        {
            const std::lock_guard lock(mutex_);
            waiting_ = std::move(job);
            given_up_ = true;
        }
        changed_.notify_all();
    }
    /// Leaves off whatever waits or is under way.
    void cancel() {
        const std::lock_guard lock(mutex_);
        waiting_.reset();
        given_up_ = true;
    }
    std::optional<Made> take() {
        const std::lock_guard lock(mutex_);
        return std::exchange(made_, std::nullopt);
    }
    bool busy() const {
        const std::lock_guard lock(mutex_);
        return working_ || waiting_.has_value() || made_.has_value();
    }

private:
    void run() {
        std::unique_lock lock(mutex_);
        while (true) {
            working_ = false;
            changed_.wait(lock, [this] { return closing_ || waiting_.has_value(); });
            if (closing_) return;
            const Job job = std::move(*waiting_);
            waiting_.reset();
            working_ = true;
            given_up_ = false;
            lock.unlock();
            work_(
                job, [this] { return stopped(); }, [this](Made made) { show(std::move(made)); });
            lock.lock();
        }
    }
    void show(Made made) {
        {
            const std::lock_guard lock(mutex_);
            made_ = std::move(made);
        }
        if (wake_) wake_();
    }
    bool stopped() const {
        const std::lock_guard lock(mutex_);
        return closing_ || given_up_;
    }

    Work work_;
    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::optional<Job> waiting_;
    std::optional<Made> made_;
    bool working_ = false, given_up_ = false, closing_ = false;
    std::thread thread_; ///< last: it runs from here on
};

} // namespace keystead::ui
