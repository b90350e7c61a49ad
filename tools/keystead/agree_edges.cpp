#include "tools/keystead/agree_edges.h"

#include "engine/render/edge_agreement.h"
#include "engine/render/png.h"
#include "engine/render/still.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

/// Side of the picture with the places marked.
constexpr int map_px = 960;

bool within(const EdgeAgreement& edge) {
    const double error = std::hypot(edge.inside.error_stops, edge.outside.error_stops);
    return std::abs(edge.off()) <= wanted_edge_stops + 2.0 * error;
}

void print_side(const SideAgreement& side) {
    std::printf("  %-10s %+6.2f %+6.2f %+6.2f ± %.2f", side.is.c_str(), side.review_stops,
                side.picture_stops, side.off(), side.error_stops);
}

void print_edge(const EdgeAgreement& edge) {
    std::printf("  %-15s", edge.place.c_str());
    print_side(edge.inside);
    print_side(edge.outside);
    std::printf("  %+6.2f %+6.2f %+6.2f%s\n", edge.review_step(), edge.picture_step(), edge.off(),
                within(edge) ? "" : "  off");
}

void mark(RgbaImage& picture, const Vec2& place, bool good) {
    const std::array<std::uint8_t, 3> colour =
        good ? std::array<std::uint8_t, 3>{40, 200, 60} : std::array<std::uint8_t, 3>{230, 30, 30};
    for (int dy = -1; dy <= 1; ++dy)
        for (int dx = -1; dx <= 1; ++dx) {
            const int x = static_cast<int>(place.x * map_px) + dx;
            const int y = static_cast<int>(place.y * map_px) + dy;
            if (x < 0 || y < 0 || x >= picture.width || y >= picture.height) continue;
            const auto at = 4 * static_cast<std::ptrdiff_t>(y * picture.width + x);
            std::copy(colour.begin(), colour.end(), picture.pixels.begin() + at);
        }
}

} // namespace

int agree_edges(const std::string& set, const std::shared_ptr<const Studio>& studio, int samples,
                const std::filesystem::path& stem) {
    EdgeComparisonOptions options;
    options.samples = std::max(options.samples, samples);
    const std::vector<EdgeAgreement> edges = compare_edges(*studio, options);
    std::printf("%s: stops from an 18 %% card, review, picture and difference, inside and outside "
                "the outline; then the step\n",
                set.c_str());
    bool off = false;
    for (const EdgeAgreement& edge : edges) {
        print_edge(edge);
        off = off || !within(edge);
    }
    StillOptions wanted;
    wanted.width_px = wanted.height_px = map_px;
    wanted.samples = 8;
    wanted.bounce_paths = 24;
    Result<Still> still = render_still(studio, wanted);
    if (!still) {
        complain(still.problem().message());
        return exit_code::machine;
    }
    RgbaImage picture = still.value().picture;
    for (const EdgeAgreement& edge : edges)
        for (const auto* places : {&edge.inside_at, &edge.outside_at})
            for (const Vec2& place : *places) mark(picture, place, within(edge));
    std::filesystem::path file = stem;
    file += "-edges.png";
    if (Outcome failed = write_png(picture, file)) {
        complain(failed->message());
        return exit_code::input;
    }
    return off ? exit_code::danger : exit_code::done;
}

} // namespace keystead
