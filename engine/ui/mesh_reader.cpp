#include "engine/ui/mesh_reader.h"

#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <thread>
#include <utility>

namespace keystead::ui {

namespace {

struct Job {
    std::uint64_t number = 0;
    std::filesystem::path file;           ///< to be read; empty: to be fitted
    std::shared_ptr<const ReadMesh> read; ///< to be fitted
    MeshRequest request;
};

} // namespace

struct MeshReader::Data {
    std::function<void()> wake;
    mutable std::mutex mutex;
    std::condition_variable changed;
    std::optional<Job> waiting;
    MeshReading state;
    std::uint64_t wanted = 0; ///< number of the job whose result is still of interest
    bool closing = false;
    std::thread worker;

    /// Under the lock: nobody asked for something else meanwhile.
    bool still(const Job& job) const { return !closing && job.number == wanted; }

    void tell(const Job& job, const std::function<void(MeshReading&)>& change) {
        {
            const std::lock_guard lock(mutex);
            if (!still(job)) return;
            change(state);
        }
        if (wake) wake();
    }

    bool go_on(const Job& job, double share, std::string_view doing) {
        tell(job, [&](MeshReading& now) { now.share = share, now.doing = doing; });
        const std::lock_guard lock(mutex);
        return still(job);
    }

    void read(const Job& job) {
        Result<ImportedMesh> imported =
            import_mesh(job.file, {}, [&](double share, std::string_view doing) {
                return go_on(job, share, doing);
            });
        if (!imported)
            return tell(job, [&](MeshReading& now) {
                now.busy = false;
                now.problem = imported.problem();
            });
        auto made = std::make_shared<ReadMesh>();
        made->file = job.file;
        made->imported = std::move(imported).value();
        made->guess = guess_units(made->imported.bounds, made->imported.format);
        tell(job, [&](MeshReading& now) {
            now.busy = false;
            now.read = std::move(made);
        });
    }

    void fit(const Job& job) {
        FittedMesh made{job.request, stored_from(job.read->imported, job.request)};
        tell(job, [&](MeshReading& now) {
            now.busy = false;
            now.fitted = std::move(made);
        });
    }

    void run() {
        std::unique_lock lock(mutex);
        while (true) {
            changed.wait(lock, [&] { return closing || waiting.has_value(); });
            if (closing) return;
            const Job job = std::move(*waiting);
            waiting.reset();
            lock.unlock();
            job.file.empty() ? fit(job) : read(job);
            lock.lock();
        }
    }

    void ask(Job job) {
        job.number = ++wanted;
        waiting = std::move(job);
        changed.notify_all();
    }
};

MeshReader::MeshReader(std::function<void()> wake)
    : data_(std::make_unique<Data>()) {
    data_->wake = std::move(wake);
    data_->worker = std::thread([data = data_.get()] { data->run(); });
}

MeshReader::~MeshReader() {
    {
        const std::lock_guard lock(data_->mutex);
        data_->closing = true;
    }
    data_->changed.notify_all();
    data_->worker.join();
}

void MeshReader::read(const std::filesystem::path& file) {
    const std::lock_guard lock(data_->mutex);
    data_->state = {};
    data_->state.busy = true;
    data_->state.doing = "opening the file";
    data_->ask({0, file, nullptr, {}});
}

void MeshReader::fit(const MeshRequest& request) {
    const std::lock_guard lock(data_->mutex);
    if (!data_->state.read) return;
    data_->state.busy = true;
    data_->state.doing = request.find_face ? "looking for a face" : "making it smaller";
    data_->state.fitted.reset();
    data_->ask({0, {}, data_->state.read, request});
}

void MeshReader::stop() {
    const std::lock_guard lock(data_->mutex);
    data_->state = {};
    data_->waiting.reset();
    ++data_->wanted;
}

MeshReading MeshReader::state() const {
    const std::lock_guard lock(data_->mutex);
    return data_->state;
}

} // namespace keystead::ui
