#include "engine/ui/workshop.h"

#include <condition_variable>
#include <mutex>
#include <thread>

namespace keystead::ui {

namespace {

struct Job {
    std::uint64_t revision = 0;
    Set set;
    bool hurried = false;
};

} // namespace

struct Workshop::Data {
    std::function<void()> wake;
    mutable std::mutex mutex;
    std::condition_variable changed;
    std::optional<Job> waiting;
    std::vector<Finished> done;
    bool working = false, closing = false;
    std::shared_ptr<const Studio> studio;          // worker thread only
    std::shared_ptr<const SubjectOutline> outline; // worker thread only
    std::uint64_t outline_key = 0;
    std::thread worker;

    bool superseded() const {
        const std::lock_guard lock(mutex);
        return closing || waiting.has_value();
    }

    void deliver(Finished finished) {
        {
            const std::lock_guard lock(mutex);
            done.push_back(std::move(finished));
        }
        if (wake) wake();
    }

    /// Quick things first: the studio for the picture, then the verdicts, then how far they hold.
    void carry_out(const Job& job) {
        studio = make_studio(job.set, studio);
        if (!outline || outline_key != studio->subject_key) {
            outline = std::make_shared<const SubjectOutline>(outline_of(*studio->subject));
            outline_key = studio->subject_key;
        }
        deliver({job.revision, studio, outline, std::nullopt, false});
        if (superseded()) return;
        deliver({job.revision, nullptr, nullptr, review_set(*studio, {.margins = false}), false});
        if (job.hurried || superseded()) return;
        deliver({job.revision, nullptr, nullptr, review_set(*studio, {.margins = true}), true});
    }

    void run() {
        std::unique_lock lock(mutex);
        while (true) {
            working = false;
            changed.wait(lock, [&] { return closing || waiting.has_value(); });
            if (closing) return;
            const Job job = std::move(*waiting);
            waiting.reset();
            working = true;
            lock.unlock();
            carry_out(job);
            lock.lock();
        }
    }
};

Workshop::Workshop(std::function<void()> wake)
    : data_(std::make_unique<Data>()) {
    data_->wake = std::move(wake);
    data_->worker = std::thread([data = data_.get()] { data->run(); });
}

Workshop::~Workshop() {
    {
        const std::lock_guard lock(data_->mutex);
        data_->closing = true;
    }
    data_->changed.notify_all();
    data_->worker.join();
}

void Workshop::request(std::uint64_t revision, const Set& set, bool hurried) {
    {
        const std::lock_guard lock(data_->mutex);
        data_->waiting = Job{revision, set, hurried};
    }
    data_->changed.notify_all();
}

std::vector<Finished> Workshop::collect() {
    const std::lock_guard lock(data_->mutex);
    return std::exchange(data_->done, {});
}

bool Workshop::idle() const {
    const std::lock_guard lock(data_->mutex);
    return !data_->working && !data_->waiting && data_->done.empty();
}

} // namespace keystead::ui
