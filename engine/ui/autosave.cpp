#include "engine/ui/autosave.h"

#include "engine/ui/unsaved_copy.h"
#include "sim/base/safe_file.h"

namespace keystead::ui {

namespace fs = std::filesystem;

namespace {

/// A full or read-only disk: tried again after this while. Not worth a message of its own, the set
/// itself is untouched and says when it cannot be saved.
constexpr std::chrono::seconds after_trouble{5};

} // namespace

Autosave::Autosave(const fs::path& folder, std::chrono::milliseconds every)
    : copy_(folder.empty() ? fs::path() : own_copy(folder))
    , every_(every) {
    if (!copy_.empty()) thread_ = std::thread([this] { run(); });
}

Autosave::~Autosave() {
    stop();
}

void Autosave::keep(const App& app) {
    if (copy_.empty()) return;
    Job now{app.history.dirty() ? app.history.snapshot() : nullptr, app.file_key()};
    if (now.set == handed_.set && (now.set == nullptr || now.file == handed_.file)) return;
    handed_ = now;
    {
        const std::lock_guard lock(mutex_);
        waiting_ = std::move(now);
    }
    changed_.notify_all();
}

bool Autosave::busy() const {
    const std::lock_guard lock(mutex_);
    return working_ || waiting_.has_value();
}

void Autosave::finish() {
    stop();
    std::error_code error;
    if (!copy_.empty()) fs::remove(copy_, error);
}

void Autosave::stop() {
    {
        const std::lock_guard lock(mutex_);
        closing_ = true;
    }
    changed_.notify_all();
    if (thread_.joinable()) thread_.join();
}

// Not `Newest`, which begins at once and leaves off what it is at: here a newer set waits its turn,
// so that a drag of any length is written twice a second and not for each of its frames.
void Autosave::run() {
    auto next = std::chrono::steady_clock::now();
    std::unique_lock lock(mutex_);
    while (true) {
        changed_.wait(lock, [this] { return closing_ || waiting_.has_value(); });
        if (changed_.wait_until(lock, next, [this] { return closing_; })) return;
        const Job job = std::move(*waiting_);
        waiting_.reset();
        working_ = true;
        lock.unlock();
        next = std::chrono::steady_clock::now() + every_;
        const bool done = carry_out(job);
        lock.lock();
        working_ = false;
        if (done) continue;
        if (!waiting_) waiting_ = job;
        next += after_trouble;
    }
}

bool Autosave::carry_out(const Job& job) const {
    std::error_code error;
    if (!job.set) {
        fs::remove(copy_, error);
        return !error;
    }
    fs::create_directories(copy_.parent_path(), error);
    return !write_safely(copy_, unsaved_text({job.file, seconds_now(), *job.set}),
                         Previous::dropped);
}

} // namespace keystead::ui
