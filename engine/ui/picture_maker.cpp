#include "engine/ui/picture_maker.h"

#include "engine/gl/load.h"
#include "engine/render/renderer.h"

#include <algorithm>
#include <chrono>

namespace keystead::ui {

namespace {

constexpr int lens_samples = 64, room_samples = 24;

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

/// One renderer and what it was last asked for.
struct Canvas {
    std::unique_ptr<Renderer> renderer;
    std::shared_ptr<const Studio> studio;
    PictureShown shown;
    Set set; ///< whose powers and exposure are mixed in
    bool stale = true;

    void prepare(const std::shared_ptr<const Studio>& wanted, const View& view, int width,
                 int height, int target) {
        if (!renderer) renderer = std::make_unique<Renderer>();
        if (studio != wanted) {
            studio = wanted;
            renderer->show(studio);
            stale = true;
        }
        if (shown.width != width || shown.height != height) stale = true;
        renderer->look(view, width, height);
        shown.width = width, shown.height = height, shown.target = target;
    }

    /// True when the picture is another one now.
    bool refine(double until_s) {
        bool added = false;
        do {
            if (!renderer->refine(shown.target)) break;
            added = true;
        } while (now_s() < until_s);
        if (!added && !stale && shown.texture != 0) return false;
        Display display;
        display.exposure = display_exposure(studio->set.camera, studio->set.meter);
        shown.texture = renderer->present(display);
        shown.samples = renderer->samples();
        stale = false;
        return true;
    }
    bool refining() const { return renderer && shown.samples < shown.target; }
};

} // namespace

struct PictureMaker::Data {
    Canvas lens, room;
    bool room_wanted = false;
    std::uint64_t counter = 0;
};

PictureMaker::PictureMaker()
    : data_(std::make_unique<Data>()) {}
PictureMaker::~PictureMaker() = default;

bool PictureMaker::work(const App& app, double budget_s) {
    if (!app.studio) return false;
    const double start = now_s();
    const float shrink = app.dragging() ? 0.5F : 1.0F;
    const auto pixels = [&](float side) { return std::max(16, static_cast<int>(side * shrink)); };
    const int width = pixels(app.lens_picture.w), height = pixels(app.lens_picture.h);
    data_->room_wanted = app.room_in_plan && app.room_picture.w > 16.0F;
    bool changed = false;
    data_->lens.prepare(app.studio, keystead::lens_view(app.studio->set.camera, width, height),
                        width, height, lens_samples);
    changed |= data_->lens.refine(start + (data_->room_wanted ? 0.6 : 1.0) * budget_s);
    if (data_->room_wanted) {
        const int w = pixels(app.room_picture.w), h = pixels(app.room_picture.h);
        const Orbit& orbit = app.orbit;
        const View view = orbit_view(orbit.centre_m, orbit.azimuth_deg, orbit.elevation_deg,
                                     orbit.distance_m, 38.0, w, h);
        data_->room.prepare(app.studio, view, w, h, room_samples);
        changed |= data_->room.refine(start + budget_s);
    }
    if (changed) ++data_->counter;
    return changed;
}

bool PictureMaker::refining() const {
    return data_->lens.refining() || (data_->room_wanted && data_->room.refining());
}

Pictures PictureMaker::shown() const {
    return {data_->lens.shown, data_->room.shown};
}
std::uint64_t PictureMaker::counter() const {
    return data_->counter;
}
std::string PictureMaker::device() const {
    return gl_device();
}

} // namespace keystead::ui
