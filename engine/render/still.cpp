#include "engine/render/still.h"

#include "engine/gl/context.h"
#include "engine/gl/load.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr int largest_px = 8192;

Outcome check(const StillOptions& options) {
    for (const int side : {options.width_px, options.height_px})
        if (side < 1 || side > largest_px)
            return Problem{"size", std::to_string(side), "is not 1 to 8192 pixels"};
    if (options.samples < 1 || options.samples > 65536)
        return Problem{"samples", std::to_string(options.samples), "is not 1 to 65536"};
    return std::nullopt;
}

Result<Still> drawn(const std::shared_ptr<const Studio>& studio, const StillOptions& options) {
    Renderer renderer;
    if (!renderer.problem().empty()) return Problem{"OpenGL", renderer.problem(), ""};
    renderer.set_options(options.surfaces);
    const Camera& camera = studio->set.camera;
    renderer.show(studio);
    if (options.indirect) {
        BakeOptions bake;
        bake.paths = options.bounce_paths;
        auto baked = std::make_shared<IndirectLight>(bake_studio(*studio, bake));
        renderer.set_indirect(std::move(baked), *studio);
    }
    renderer.look(options.view ? *options.view
                               : lens_view(camera, options.width_px, options.height_px),
                  options.width_px, options.height_px);
    // A GPU shades four points at a time; in software one at a time keeps the caches warm.
    const int per_light = gl_is_software() ? 1 : 4;
    while (renderer.refine(options.samples, per_light))
        if (options.progress &&
            !options.progress(static_cast<double>(renderer.samples()) / options.samples))
            return Problem{"still", "stopped", "before it was finished"};
    const Display display = options.display.value_or(camera_display(camera, studio->set.meter));
    Still still;
    still.picture = renderer.read_display(display);
    if (options.linear) still.linear = renderer.read_linear();
    still.device = renderer.device();
    still.samples = renderer.samples();
    return still;
}

} // namespace

Result<Still> render_still(const std::shared_ptr<const Studio>& studio, const StillOptions& options,
                           bool own_context) {
    if (Outcome problem = check(options)) return *problem;
    if (!own_context) return drawn(studio, options);
    const auto context = HeadlessContext::create();
    if (!context) return context.problem();
    return drawn(studio, options);
}

View studio_view(const Studio& studio, int width_px, int height_px) {
    const Room& room = studio.set.room;
    const double front_m = room.depth_m - room.behind_subject_m;
    // As far back as the room allows, a little to camera right, above head height.
    const double right_m = room.width_m - room.left_of_subject_m;
    View view;
    view.eye_m = Vec3(std::min(1.45, 0.6 * right_m), std::min(1.75, room.ceiling_m - 0.4),
                      std::max(1.5, front_m - 0.25));
    const Vec3 at(-0.3, 1.1, -0.4);
    const Vec3 backward = glm::normalize(view.eye_m - at);
    const Vec3 right = glm::normalize(glm::cross(Vec3(0, 1, 0), backward));
    view.axes = Mat3(right, glm::cross(backward, right), backward);
    // 24 mm on a 36 mm wide frame; a taller picture keeps its width.
    view.tan_half_width = 18.0 / 24.0;
    view.tan_half_height = view.tan_half_width * height_px / std::max(1, width_px);
    view.work_light = true;
    return view;
}

} // namespace keystead
