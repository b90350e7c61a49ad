#include "engine/ui/learn.h"

#include "engine/ui/marks.h"
#include "engine/ui/newest.h"

#include <algorithm>
#include <mutex>
#include <tbb/task_arena.h>
#include <thread>

namespace keystead::ui {

namespace {

struct LessonJob {
    std::shared_ptr<const Studio> studio;
    std::size_t light = 0;
};

/// The face chart of the last form, for both threads.
class ChartShelf {
public:
    std::shared_ptr<const FaceChart> of(const Studio& studio) {
        const std::lock_guard lock(mutex_);
        if (!chart_ || form_key_ != studio.form_key) {
            chart_ = make_face_chart(*studio.form);
            form_key_ = studio.form_key;
        }
        return chart_;
    }

private:
    std::mutex mutex_;
    std::uint64_t form_key_ = 0;
    std::shared_ptr<const FaceChart> chart_;
};

/// The chart leaves a core to the window.
int spare_cores() {
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()) - 1);
}

} // namespace

class Tutor {
public:
    using Faces = Newest<LessonJob, std::shared_ptr<const FaceLesson>>;
    using Maps = Newest<LessonJob, std::shared_ptr<const MapLesson>>;

    explicit Tutor(const std::function<void()>& wake)
        : faces([this](const LessonJob& job, const Faces::Stop&,
                       const Faces::Show& show) { teach(job, show); },
                wake)
        , maps([this](const LessonJob& job, const Maps::Stop& stop,
                      const Maps::Show& show) { chart(job, stop, show); },
               wake) {}

private:
    ChartShelf shelf_; ///< first: the threads use it

    void teach(const LessonJob& job, const Faces::Show& show) {
        const auto chart = shelf_.of(*job.studio);
        show(std::make_shared<const FaceLesson>(teach_face(job.studio, job.light, *chart)));
    }
    void chart(const LessonJob& job, const Maps::Stop& stop, const Maps::Show& show) {
        const Studio& studio = *job.studio;
        const auto face = shelf_.of(studio);
        tbb::task_arena arena(spare_cores());
        // A tenth of the time for one that can be read at once.
        for (const PatternMapRange& range :
             {PatternMapRange{-60.0, 84.0, 12.0, false}, PatternMapRange{}}) {
            auto lesson = std::make_shared<MapLesson>();
            lesson->made_for = map_for(studio, job.light);
            lesson->rough = !range.fine;
            arena.execute([&] {
                lesson->map = map_patterns(*face, studio.emitters[job.light],
                                           studio.subject->head_axes, studio.subject->head_origin_m,
                                           lesson->made_for.distance_m, range, stop);
            });
            if (lesson->map.columns == 0) return;
            show(lesson);
        }
    }

public:
    Faces faces;
    Maps maps;
};

std::shared_ptr<Tutor> make_tutor(std::function<void()> wake) {
    return std::make_shared<Tutor>(wake);
}

std::optional<std::size_t> taught_light(const Set& set, const Review* review,
                                        const Selection& selection) {
    if (review == nullptr) return {};
    constexpr double least_share = 0.005;
    if (selection.thing == Thing::light)
        for (const LightReview& light : review->lights)
            if (light.id == selection.id && light.share >= least_share)
                return light_index(set, light.id);
    return light_index(set, review->portrait.key);
}

bool take_lessons(Learn& learn) {
    if (!learn.tutor) return false;
    bool changed = false;
    if (auto face = learn.tutor->faces.take()) {
        learn.face = std::move(*face);
        changed = true;
    }
    if (auto map = learn.tutor->maps.take()) {
        learn.map = std::move(*map);
        learn.shapes = {};
        // After a rough one the other is still to come.
        if (!learn.map->rough) learn.map_wanted.reset();
        changed = true;
    }
    return changed;
}

bool learning(const Learn& learn) {
    return learn.tutor && (learn.tutor->faces.busy() || learn.tutor->maps.busy());
}

namespace {

void ask_face(Learn& learn, const LessonsWanted& wanted) {
    const std::string& id = wanted.studio->emitters[*wanted.light].light;
    if (learn.face_asked == wanted.studio && learn.face_asked_of == id) return;
    learn.face_asked = wanted.studio;
    learn.face_asked_of = id;
    learn.tutor->faces.ask({wanted.studio, *wanted.light});
}

void ask_map(Learn& learn, const LessonsWanted& wanted) {
    const MapFor about = map_for(*wanted.studio, *wanted.light);
    if (learn.map_wanted && same_map(*learn.map_wanted, about)) return;
    if (learn.map && !learn.map->rough && same_map(learn.map->made_for, about)) {
        if (learn.map_wanted) learn.tutor->maps.cancel();
        learn.map_wanted.reset();
        return;
    }
    learn.map_wanted = about;
    learn.tutor->maps.ask({wanted.studio, *wanted.light});
}

void stop(Learn& learn) {
    if (learn.tutor) {
        learn.tutor->faces.cancel();
        learn.tutor->maps.cancel();
    }
    learn.face.reset();
    learn.face_asked.reset();
    learn.map_wanted.reset();
}

/// A drag that is in hand keeps what it began with.
void keep_follow(HeadFollow& follow, const LessonsWanted& wanted) {
    if (wanted.dragging) return;
    follow.start = wanted.studio_is_current ? wanted.studio : nullptr;
    if (!wanted.studio) return;
    // One that follows is not exchanged for another because the head now shows another key.
    if (const auto same = light_index(wanted.studio->set, follow.light); follow.on && same) {
        follow.letter = letter_of(*same);
        return;
    }
    const auto key = wanted.review != nullptr
                         ? light_index(wanted.studio->set, wanted.review->portrait.key)
                         : std::nullopt;
    follow.light = key ? wanted.review->portrait.key : std::string();
    follow.letter = key ? letter_of(*key) : std::string();
}

} // namespace

void keep_learning(Learn& learn, const LessonsWanted& wanted) {
    keep_follow(learn.follow, wanted);
    if (!wanted.on) return stop(learn);
    if (!learn.tutor || !wanted.studio || !wanted.light ||
        *wanted.light >= wanted.studio->emitters.size())
        return;
    ask_face(learn, wanted);
    if (!wanted.dragging) ask_map(learn, wanted);
}

void forget_lessons(Learn& learn) {
    stop(learn);
    learn.map.reset();
    learn.shapes = {};
    learn.words.clear();
    learn.dot = {};
    learn.follow.start.reset();
    learn.follow.light.clear();
    learn.follow.stopped.clear();
}

} // namespace keystead::ui
