#include "engine/ui/workshop.h"

#include "engine/render/renderer.h"

#include <condition_variable>
#include <mutex>
#include <thread>

namespace keystead::ui {

namespace {

struct Job {
    std::uint64_t revision = 0;
    Set set;
    bool hurried = false;
    std::filesystem::path folder;
    StoredMeshes at_hand;
    std::shared_ptr<const Studio> like;
};

/// Changes with every part of the scene.
std::uint64_t geometry_key(const Studio& studio) {
    std::uint64_t key = 1469598103934665603ULL;
    const auto mix = [&](std::uint64_t value) { key = (key ^ value) * 1099511628211ULL; };
    for (const ScenePart& part : studio.scene.parts) mix(part.key);
    for (const std::uint64_t light : studio.light_keys) mix(light);
    return key;
}

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
    std::uint64_t outline_key = 0, baked_key = 0;
    bool baked = false;
    ReviewMemory memory;    // worker thread only
    BakeMemory bake_memory; // worker thread only
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

    /// Quick things first: the studio for the picture, then the verdicts, then how far they hold,
    /// then the light by way of walls and floor.
    void carry_out(const Job& job) {
        studio = make_studio(job.set, job.like ? job.like : studio, job.folder, job.at_hand);
        if (!outline || outline_key != studio->subject_key) {
            outline = std::make_shared<const SubjectOutline>(outline_of(*studio->subject));
            outline_key = studio->subject_key;
        }
        Finished made;
        made.revision = job.revision;
        made.studio = studio;
        made.outline = outline;
        deliver(std::move(made));
        if (superseded()) return;
        review(job, false);
        if (job.hurried || superseded()) return;
        review(job, true);
        if (!superseded()) bake(job);
    }

    void review(const Job& job, bool margins) {
        Finished made;
        made.revision = job.revision;
        made.review = review_set(*studio, {.margins = margins}, &memory);
        made.with_margins = margins;
        deliver(std::move(made));
    }

    /// Only when something stands elsewhere: powers and colours are mixed in later. From nothing a
    /// coarse light comes first; after an edit only what it touched is traced again. A hurried job
    /// never gets here, and a drag that begins stops a bake under way.
    void bake(const Job& job) {
        const std::uint64_t key = geometry_key(*studio);
        if (baked && key == baked_key) return;
        BakeOptions options;
        options.paths = 32;
        options.stop = [this] { return superseded(); };
        options.show = [&](IndirectLight light) { deliver_light(job, std::move(light)); };
        IndirectLight light = bake_studio(*studio, options, &bake_memory);
        if (!light.complete) return;
        baked = true;
        baked_key = key;
        deliver_light(job, std::move(light));
    }

    void deliver_light(const Job& job, IndirectLight light) {
        Finished made;
        made.revision = job.revision;
        made.studio = studio;
        made.outline = outline;
        made.indirect = std::make_shared<const IndirectLight>(std::move(light));
        deliver(std::move(made));
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

void Workshop::request(std::uint64_t revision, const Set& set, bool hurried,
                       const std::filesystem::path& folder, const StoredMeshes& at_hand,
                       std::shared_ptr<const Studio> like) {
    {
        const std::lock_guard lock(data_->mutex);
        data_->waiting = Job{revision, set, hurried, folder, at_hand, std::move(like)};
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
