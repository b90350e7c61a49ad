#include "engine/ui/picture_maker.h"

#include "engine/gl/load.h"
#include "engine/ui/canvas.h"
#include "engine/ui/kept_prints.h"
#include "engine/ui/learn_views.h"

#include <algorithm>
#include <thread>

namespace keystead::ui {

namespace {

/// A still picture is left alone after this many.
constexpr int lens_samples = 64;
constexpr int room_samples = 16;
bool wants_room(const App& app) {
    return app.room_in_plan && app.room_picture.w > 16.0F;
}

/// The camera's picture, or what is shown in its place.
Display display_of(const App& app, const Set& set, const Review* review) {
    Display display = camera_display(set.camera, set.meter);
    display.shown_as = app.shown_as;
    display.clipping = app.clipping_marks;
    if (review != nullptr)
        display.face_tone =
            tone_of_face(set.subject.skin.luminous(), review->exposure.stops_off.value_or(0.0));
    return display;
}

/// What the lens shows: the set as it is, or a step of its build.
const std::shared_ptr<const Studio>& lens_studio(const App& app) {
    const BuildStep* step = app.build_order.shown(app.revision());
    return step != nullptr && step->studio ? step->studio : app.studio;
}

Display lens_display(const App& app) {
    return display_of(app, lens_studio(app)->set, app.review ? &*app.review : nullptr);
}

Display kept_display(const App& app, const KeptState& state) {
    return display_of(app, *state.set, state.review.get());
}

/// Walls, ceiling and what is fixed to them, where the eye is on their outer side.
std::vector<bool> in_the_way(const Scene& scene, const Vec3& eye_m) {
    std::vector<bool> hidden;
    bool side_hidden = false;
    for (const ScenePart& part : scene.parts) {
        const bool shell =
            part.owner == "room" && part.part != "floor" && !part.mesh->triangles.empty();
        if (!shell) side_hidden = false;
        // Skirting and sockets follow their wall in the scene and go with it.
        if (shell && (part.part == "walls" || part.part == "ceiling")) {
            const glm::uvec3 t = part.mesh->triangles.front();
            const auto& p = part.mesh->positions_m;
            const glm::vec3 inward = glm::cross(p[t[1]] - p[t[0]], p[t[2]] - p[t[0]]);
            side_hidden = glm::dot(inward, glm::vec3(eye_m) - p[t[0]]) < 0.0F;
        }
        hidden.push_back(shell && side_hidden);
    }
    return hidden;
}

std::shared_ptr<const Studio> without(const Studio& studio, const std::vector<bool>& hidden) {
    auto opened = std::make_shared<Studio>(studio);
    opened->scene.parts.clear();
    for (std::size_t i = 0; i < hidden.size(); ++i)
        if (!hidden[i]) opened->scene.parts.push_back(studio.scene.parts[i]);
    opened->rays = scene_rays(opened->scene, studio.movers, studio.rays.get());
    return opened;
}

} // namespace

struct PictureMaker::Data {
    FillerKind kind = FillerKind::opengl;
    Canvas lens, room, kept;
    KeptPrints prints;
    PictureShown kept_shown;
    bool room_wanted = false, kept_wanted = false;
    bool lens_is_whole = true;   ///< no close-up, which would not do as a print
    bool lens_part_asked = true; ///< the same of the picture asked for last
    /// What the comparison was last asked to show.
    std::shared_ptr<const Studio> kept_asked;
    int number_asked = 0;
    std::shared_ptr<const Studio> whole, opened; ///< the room's studio without the walls in the way
    std::vector<bool> hidden;

    const std::shared_ptr<const Studio>& opened_room(const std::shared_ptr<const Studio>& studio,
                                                     const View& view) {
        std::vector<bool> now = in_the_way(studio->scene, view.eye_m);
        if (whole == studio && now == hidden) return opened;
        whole = studio;
        hidden = std::move(now);
        opened = without(*studio, hidden);
        return opened;
    }
    std::uint64_t counter = 0;

    /// The picked kept state, where one is compared: its print while that is as good as it gets,
    /// else made like the lens picture. True when it is another picture now.
    bool refine_kept(const App& app, double budget_s) {
        const unsigned before = kept_shown.texture;
        const KeptState* state = app.kept.compared();
        kept_wanted = false;
        kept_shown = {};
        number_asked = state != nullptr ? state->number : 0;
        kept_asked = state != nullptr ? state->studio : nullptr;
        if (state == nullptr) return before != 0;
        const PictureShown print = prints.of(*state);
        const int width = std::max(16, static_cast<int>(app.kept.picture.w)),
                  height = std::max(16, static_cast<int>(app.kept.picture.h));
        const Display display = kept_display(app, *state);
        const bool done = print.width == width && print.height == height &&
                          print.display == display && print.samples >= lens_samples;
        bool changed = false;
        kept_shown = print;
        if (!done && state->studio && app.kept.picture.w > 16.0F) {
            const bool own = state->indirect != nullptr;
            PictureJob job;
            job.studio = state->studio;
            job.bounce = own ? Bounce{state->indirect, state->indirect_of}
                             : Bounce{app.indirect, app.indirect_of};
            job.view = keystead::lens_view(state->set->camera, width, height);
            job.width = width, job.height = height;
            job.target = lens_samples;
            job.display = display;
            job.budget_s = budget_s;
            changed = kept.keep_up(kind, std::move(job), app.wake);
            kept_wanted = kept.refining();
            // Not another state's, which it may still be at.
            if (kept.studio() != state->studio) return changed || kept_shown.texture != before;
            // The print may be of another size, but it is clean.
            const int enough = print.display == display ? std::min(16, print.samples) : 1;
            if (kept.shown().samples >= enough) kept_shown = kept.shown();
            if (!kept_wanted && kept.shown().samples >= lens_samples)
                prints.replace(state->number, state->studio, kept.shown());
        }
        return changed || kept_shown.texture != before;
    }
};

PictureMaker::PictureMaker(FillerKind wanted)
    : data_(std::make_unique<Data>()) {
    data_->kind =
        resolved_for_window(wanted, gl_is_software(), std::thread::hardware_concurrency());
}
PictureMaker::~PictureMaker() = default;

bool PictureMaker::work(const App& app, double budget_s) {
    if (!app.studio) return false;
    const auto pixels = [](float side, float shrink) {
        return std::max(16, static_cast<int>(side * shrink));
    };
    const Rect& frame = app.lens_picture;
    const float shrink = data_->lens.size_for(
        app.dragging(), data_->lens.studio() != lens_studio(app), frame.w, frame.h);
    const int width = pixels(frame.w, shrink), height = pixels(frame.h, shrink);
    data_->room_wanted = wants_room(app);
    bool changed = false;
    if (data_->lens_is_whole)
        data_->prints.keep_up(app.kept, data_->lens.studio(), data_->lens.shown());
    changed |= data_->refine_kept(app, 0.5 * budget_s);
    const std::shared_ptr<const Studio>& studio = lens_studio(app);
    const Bounce bounce{app.indirect, app.indirect_of};
    const CloseUp part = lens_part(app);
    PictureJob job;
    job.studio = studio;
    job.bounce = bounce;
    job.view = part_of(keystead::lens_view(studio->set.camera, width, height), part);
    job.width = width, job.height = height;
    job.target = lens_samples;
    job.display = lens_display(app);
    job.measure_noise = !app.dragging();
    job.revision = app.studio_revision;
    job.budget_s = (data_->room_wanted ? 0.6 : 1.0) * budget_s;
    if (data_->lens.keep_up(data_->kind, std::move(job), app.wake)) {
        // Of a picture that was asked for earlier: told by what it is of.
        data_->lens_is_whole = data_->lens_part_asked;
        changed = true;
    }
    data_->lens_part_asked = part.whole();
    if (data_->room_wanted) {
        const float small = data_->room.size_for(app.dragging() || app.orbit.turning, true,
                                                 app.room_picture.w, app.room_picture.h);
        const int w = pixels(app.room_picture.w, small), h = pixels(app.room_picture.h, small);
        const Orbit& orbit = app.orbit;
        const View view = orbit_view(orbit.centre_m, orbit.azimuth_deg, orbit.elevation_deg,
                                     orbit.distance_m, 38.0, w, h);
        PictureJob outside;
        outside.studio = data_->opened_room(app.studio, view);
        outside.bounce = bounce;
        outside.view = view;
        outside.width = w, outside.height = h;
        outside.target = room_samples;
        outside.display = camera_display(app.studio->set.camera, app.studio->set.meter);
        outside.budget_s = 0.4 * budget_s;
        changed |= data_->room.keep_up(data_->kind, std::move(outside), app.wake);
    }
    if (changed) ++data_->counter;
    return changed;
}

bool PictureMaker::behind(const App& app) const {
    if (!app.studio || !data_->lens.shown().trouble.empty()) return false;
    const KeptState* kept = app.kept.compared();
    const bool same_kept = data_->number_asked == (kept != nullptr ? kept->number : 0) &&
                           data_->kept_asked == (kept != nullptr ? kept->studio : nullptr);
    return data_->lens.studio() != lens_studio(app) || !same_kept ||
           !(data_->lens.shown().display == lens_display(app)) ||
           wants_room(app) != data_->room_wanted;
}

std::uint64_t PictureMaker::shown_revision() const {
    return data_->lens.revision();
}

bool PictureMaker::busy() const {
    return data_->lens.busy() || data_->kept.busy() || data_->room.busy();
}

bool PictureMaker::refining() const {
    return data_->lens.refining() || data_->kept_wanted ||
           (data_->room_wanted && data_->room.refining());
}

RgbaImage PictureMaker::seen(const App& app) const {
    const PictureShown &lens = data_->lens.shown(), &kept = data_->kept_shown;
    if (lens.texture == 0) return {};
    RgbaImage image = read_texture(lens.texture, lens.width, lens.height);
    const bool beside = app.kept.split && kept.texture != 0 && kept.width == lens.width &&
                        kept.height == lens.height;
    if (!beside) return image;
    const RgbaImage left = read_texture(kept.texture, kept.width, kept.height);
    const auto columns =
        static_cast<std::ptrdiff_t>(app.kept.divider * static_cast<float>(lens.width));
    for (std::ptrdiff_t y = 0; y < image.height; ++y)
        std::copy_n(left.pixels.begin() + 4 * y * image.width, 4 * columns,
                    image.pixels.begin() + 4 * y * image.width);
    return image;
}

Pictures PictureMaker::shown() const {
    return {data_->lens.shown(), data_->room.shown(), data_->kept_shown};
}
std::uint64_t PictureMaker::counter() const {
    return data_->counter;
}
std::string PictureMaker::device() const {
    const std::string filler = data_->lens.device();
    return data_->kind == FillerKind::opengl || filler.empty() ? gl_device() : filler;
}

} // namespace keystead::ui
