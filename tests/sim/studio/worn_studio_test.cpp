// A hat, glasses and a gaze in a whole studio: what is drawn, what casts, what an edit costs.
#include "sim/portrait/face_chart.h"
#include "sim/portrait/pattern.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;

namespace {

Set facing_set() {
    const Result<LoadedSet> loaded = load_set(assets_folder() / "sets" / "lantern-maker.json");
    REQUIRE(loaded.ok());
    Set set = loaded.value().set;
    set.subject.head_turn_deg = 0.0, set.subject.head_roll_deg = 0.0;
    return set;
}

const std::shared_ptr<const Studio>& bare() {
    static const std::shared_ptr<const Studio> studio = make_studio(facing_set());
    return studio;
}

const ScenePart* part_of(const Studio& studio, const std::string& name) {
    for (const ScenePart& part : studio.scene.parts)
        if (part.owner == "subject" && part.part == name) return &part;
    return nullptr;
}

} // namespace

TEST_CASE("A hat joins the scene as a caster of the subject and hides a steep light from the eyes",
          "[studio]") {
    Set set = facing_set();
    set.subject.hat = Hat{};
    const std::shared_ptr<const Studio> studio = make_studio(set, bare());
    const ScenePart* hat = part_of(*studio, "hat");
    REQUIRE(hat != nullptr);
    CHECK(hat->casts);
    CHECK(hat->mask == ray_mask::subject);
    CHECK(studio->form->skin == bare()->form->skin);
    CHECK(studio->subject_key != bare()->subject_key);
    const Vec3 eye = studio->subject->landmarks.pupil_left + Vec3(0.0, 0.0, 1e-3);
    const Vec3 steep = eye + 0.6 * direction_from({0.0, 45.0});
    const Vec3 low = eye + 0.6 * direction_from({0.0, 15.0});
    CHECK_FALSE(bare()->rays->blocked(eye, steep, ray_mask::subject));
    CHECK(studio->rays->blocked(eye, steep, ray_mask::subject));
    CHECK_FALSE(studio->rays->blocked(eye, low, ray_mask::subject));
}

TEST_CASE("The face chart is the same under a hat, but what the eyes see is not", "[studio]") {
    Set set = facing_set();
    set.subject.hat = Hat{};
    set.subject.hat->brim_mm = 110.0;
    const std::shared_ptr<const Studio> studio = make_studio(set, bare());
    const auto open = make_face_chart(*bare()->form, 4.0);
    const auto shaded = make_face_chart(*studio->form, 4.0);
    std::size_t changed = 0;
    for (std::size_t cell = 0; cell < open->fine.size(); ++cell)
        // Hair that the band draws in may bare or move a cell; the face itself may not change.
        if (open->fine.covered[cell] != 0 && open->fine.region[cell] != Region::hair &&
            glm::length(open->fine.place_mm[cell] - shaded->fine.place_mm[cell]) > 1e-6)
            ++changed;
    CHECK(changed == 0);
    Emitter lamp = studio->emitters.front();
    const PosedSubject& posed = *studio->subject;
    lamp.centre_m = posed.landmarks.face + 1.5 * direction_from({0.0, 50.0});
    lamp.axes = upright_frame(glm::normalize(posed.landmarks.face - lamp.centre_m));
    const auto seen = [&](const FaceChart& chart) {
        return read_pattern(chart, lamp, posed.head_axes, posed.head_origin_m).eye_visible[0];
    };
    CHECK(seen(*open) > 0.3);
    CHECK(seen(*shaded) < 0.05);
}

TEST_CASE("A frame is drawn and casts; clear lenses are no surface and in the way of no ray",
          "[studio]") {
    Set set = facing_set();
    set.subject.glasses = Glasses{};
    const std::shared_ptr<const Studio> studio = make_studio(set, bare());
    REQUIRE(part_of(*studio, "glasses") != nullptr);
    CHECK(part_of(*studio, "lenses") == nullptr);
    CHECK(studio->subject->lenses != nullptr);
    const Vec3 eye = studio->subject->landmarks.pupil_left + Vec3(0.0, 0.0, 1e-3);
    const LensSurface& lens = studio->subject->lens_surfaces[0];
    const Vec3 through = lens.middle_m + 0.1 * glm::normalize(lens.middle_m - eye);
    CHECK_FALSE(studio->rays->blocked(eye, through, ray_mask::all));
    const Vec3 rim = lens.middle_m + lens.axes[1] * lens.half_height_m;
    CHECK(studio->rays->blocked(eye, eye + 2.0 * (rim - eye), ray_mask::all));
}

TEST_CASE("A camera that moves takes the eyes along only when they look at it", "[studio]") {
    Set set = facing_set();
    set.subject.gaze.kind = GazeKind::camera;
    const std::shared_ptr<const Studio> looking = make_studio(set, bare());
    CHECK(looking->form == bare()->form);
    set.camera.position_m.x += 0.4;
    const std::shared_ptr<const Studio> moved = make_studio(set, looking);
    CHECK(moved->subject->landmarks.pupil_left.x > looking->subject->landmarks.pupil_left.x);
    Set still = facing_set();
    still.camera.position_m.x += 0.4;
    CHECK(make_studio(still, bare())->subject == bare()->subject);
}
