#include "engine/render/still.h"

#include "engine/gl/context.h"
#include "engine/gl/load.h"
#include "engine/render/develop.h"
#include "engine/render/glare.h"

#include <algorithm>
#include <cmath>
#include <mutex>

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

/// Part of a picture, from the top left.
struct Tile {
    int left_px = 0, top_px = 0, width_px = 0, height_px = 0;
};

/// Layers of a tile take no more than this; a graphics card has its own memory.
std::size_t layer_budget_bytes(FillerKind kind) {
    return std::size_t{kind == FillerKind::opengl ? 1024U : 192U} << 20U;
}

/// Longest side of a tile: a multiple of the marks' periods, so that they run on across seams.
int tile_side_px(FillerKind kind, std::size_t lights) {
    constexpr int step_px = 256;
    const double bytes_a_pixel = 2.0 * static_cast<double>(lights + 1) * 16.0;
    const double pixels = static_cast<double>(layer_budget_bytes(kind)) / bytes_a_pixel;
    return std::max(2, static_cast<int>(std::sqrt(pixels)) / step_px) * step_px;
}

/// Cut from the bottom left, where the patterns of the display start.
std::vector<Tile> tiles_of(int width_px, int height_px, int side_px) {
    std::vector<Tile> tiles;
    for (int bottom = 0; bottom < height_px; bottom += side_px)
        for (int left = 0; left < width_px; left += side_px) {
            const int high = std::min(side_px, height_px - bottom);
            tiles.push_back(
                {left, height_px - bottom - high, std::min(side_px, width_px - left), high});
        }
    return tiles;
}

template <class Pixel>
void paste(const std::vector<Pixel>& part, const Tile& tile, int width_px,
           std::vector<Pixel>& whole, int values) {
    for (int y = 0; y < tile.height_px; ++y)
        std::copy_n(part.begin() + static_cast<std::ptrdiff_t>(y) * tile.width_px * values,
                    tile.width_px * values,
                    whole.begin() +
                        (static_cast<std::ptrdiff_t>(tile.top_px + y) * width_px + tile.left_px) *
                            values);
}

/// Asks the caller, who may stop, how far the tiles are.
bool refine_tile(Filler& filler, const StillOptions& options, FillerKind kind, std::size_t tile,
                 std::size_t tiles) {
    // A GPU shades four points at a time; software OpenGL keeps its caches warm with one.
    const int per_light = kind == FillerKind::opengl && gl_is_software() ? 1 : 4;
    while (filler.refine(options.samples, per_light)) {
        const double share = static_cast<double>(filler.samples()) / options.samples;
        if (options.progress &&
            !options.progress((static_cast<double>(tile) + share) / static_cast<double>(tiles)))
            return false;
    }
    return true;
}

Result<Still> drawn(const std::shared_ptr<const Studio>& studio, const StillOptions& options,
                    FillerKind kind) {
    const std::unique_ptr<Filler> filler = make_filler(kind);
    if (!filler->problem().empty()) return Problem{"OpenGL", filler->problem(), ""};
    filler->set_options(options.surfaces);
    const Camera& camera = studio->set.camera;
    filler->show(studio);
    if (options.indirect) {
        BakeOptions bake;
        bake.paths = options.bounce_paths;
        bake.bounces = options.bounces;
        // Asked from several threads at once; the caller is asked by one at a time.
        std::mutex asking;
        bool stopped = false;
        bake.stop = [&] {
            const std::lock_guard lock(asking);
            stopped = stopped || (options.progress && !options.progress(0.0));
            return stopped;
        };
        auto baked = std::make_shared<IndirectLight>(bake_studio(*studio, bake));
        if (stopped) return Problem{"still", "stopped", "before it was finished"};
        filler->set_indirect(std::move(baked), *studio);
    }
    const int width = options.width_px, height = options.height_px;
    const View view = options.view ? *options.view : lens_view(camera, width, height);
    const Display display = options.display.value_or(camera_display(camera, studio->set.meter));
    const std::vector<Tile> tiles = tiles_of(
        width, height,
        options.tile_px > 0 ? options.tile_px : tile_side_px(kind, studio->emitters.size()));
    // Scattered light and a map's lines go across seams: they are made of the whole picture.
    const bool whole = options.glare || (tiles.size() > 1 && display.shown_as == ShownAs::stops);
    const bool linear = options.linear || whole;
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    Still still;
    still.picture = {width, height, std::vector<std::uint8_t>(4 * pixels)};
    if (linear) still.linear = {width, height, std::vector<glm::vec3>(pixels)};
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        const Tile& tile = tiles[i];
        filler->look(part_of_view(view, width, height, tile.left_px, tile.top_px, tile.width_px,
                                  tile.height_px),
                     tile.width_px, tile.height_px);
        if (!refine_tile(*filler, options, kind, i, tiles.size()))
            return Problem{"still", "stopped", "before it was finished"};
        if (!whole)
            paste(filler->read_display(display).pixels, tile, width, still.picture.pixels, 4);
        if (linear) paste(filler->read_linear().pixels, tile, width, still.linear.pixels, 1);
        still.samples = filler->samples();
    }
    if (options.glare) add_glare(still.linear);
    if (whole) develop_marked(still.linear, display, false, still.picture);
    if (!options.linear) still.linear = {};
    still.device = filler->device();
    return still;
}

} // namespace

Result<Still> render_still(const std::shared_ptr<const Studio>& studio, const StillOptions& options,
                           bool own_context) {
    if (Outcome problem = check(options)) return *problem;
    if (options.filler == FillerKind::processor) return drawn(studio, options, options.filler);
    if (!own_context)
        return drawn(studio, options, resolved(options.filler, true, gl_is_software()));
    const auto context = HeadlessContext::create();
    if (!context && options.filler == FillerKind::opengl) return context.problem();
    const bool has_opengl = context.ok();
    return drawn(studio, options,
                 resolved(options.filler, has_opengl, has_opengl && gl_is_software()));
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
