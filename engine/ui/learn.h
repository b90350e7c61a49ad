// Learn: the shadows on the face named, the patterns charted, the key that moves with the head.
// State beside the app's; what it shows is made on threads of its own.
#pragma once

#include "engine/ui/chart_drawing.h"
#include "engine/ui/face_lesson.h"
#include "engine/ui/head_follow.h"
#include "engine/ui/label_place.h"
#include "engine/ui/map_lesson.h"
#include "engine/ui/selection.h"
#include "sim/review/review.h"

#include <functional>
#include <memory>
#include <optional>

namespace keystead::ui {

/// A drag of the dot on the chart.
struct DotDrag {
    std::shared_ptr<const Studio> start; ///< null: none in hand
    std::string light;
    ImVec2 grabbed; ///< pointer to the dot
    ImVec2 from_px;
    bool moved = false, cancelled = false;
    std::string pushed_back;
};

/// Two threads: shadows on the face at once, the chart in its own time.
class Tutor;

struct Learn {
    bool elevation_shown = false; ///< in place of the chart, while Learn is on
    bool whole_picture = false;   ///< through the lens, instead of close to the face
    std::shared_ptr<Tutor> tutor; ///< null in tests: nothing is made in the background
    std::shared_ptr<const FaceLesson> face;
    std::shared_ptr<const MapLesson> map;
    std::optional<MapFor> map_wanted; ///< asked for and not there yet
    std::shared_ptr<const Studio> face_asked;
    std::string face_asked_of;
    LabelMemory words;
    ChartShapes shapes;
    DotDrag dot;
    HeadFollow follow;
};

std::shared_ptr<Tutor> make_tutor(std::function<void()> wake);

/// The light that Learn is about: the selected one if it gives the face anything, else the key.
std::optional<std::size_t> taught_light(const Set& set, const Review* review,
                                        const Selection& selection);

/// Takes over what was made; true if anything is new.
bool take_lessons(Learn& learn);
/// Something is still being made.
bool learning(const Learn& learn);

/// What the lessons are to be about.
struct LessonsWanted {
    bool on = false;
    std::shared_ptr<const Studio> studio; ///< may be null
    bool studio_is_current = false;
    const Review* review = nullptr;
    std::optional<std::size_t> light;
    bool dragging = false; ///< a chart waits for the end of a drag
};
/// After every frame: asks for what is missing, and keeps what a drag of the head begins from.
void keep_learning(Learn& learn, const LessonsWanted& wanted);
/// Another set: nothing of the last one is shown.
void forget_lessons(Learn& learn);

} // namespace keystead::ui
