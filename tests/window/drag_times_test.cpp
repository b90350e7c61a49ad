// How long frames take while things are dragged, and how far the picture lags: not a test of what
// is right but a measurement, run by tools/drag_times.
#include "tests/window/mirror.h"
#include "tests/window/session.h"
#include "tests/window/wait.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numbers>

using namespace keystead;
using namespace keystead::journeys;
using ui::GripKind;
using ui::Plane;
using ui::Selection;
using ui::Thing;

namespace {

struct Kind {
    const char* name;
    Plane plane;
    GripKind grip;
    Selection what;
};

const Kind kinds[] = {
    {"base", Plane::plan, GripKind::base, {Thing::light, "key"}},
    {"arm", Plane::plan, GripKind::body, {Thing::light, "hair"}},
    {"column", Plane::elevation, GripKind::column, {Thing::light, "key"}},
    {"camera", Plane::plan, GripKind::camera, {Thing::camera, {}}},
    {"head turn", Plane::plan, GripKind::head, {Thing::subject, {}}},
};

using Values = std::vector<double>;

double part(Values values, double share) {
    if (values.empty()) return 0.0;
    std::sort(values.begin(), values.end());
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    return values[at];
}

std::vector<nlohmann::json> lines_of(const std::filesystem::path& file, std::size_t from) {
    std::vector<nlohmann::json> lines;
    std::ifstream in(file);
    std::string text;
    for (std::size_t i = 0; std::getline(in, text); ++i)
        if (i >= from) {
            nlohmann::json line = nlohmann::json::parse(text, nullptr, false);
            if (line.is_object()) lines.push_back(std::move(line));
        }
    return lines;
}

/// Once round, so that nothing runs into a limit, in 3 s of small steps.
std::vector<ImVec2> path_from(const ImVec2& from, float radius) {
    constexpr int steps = 120;
    std::vector<ImVec2> path;
    for (int i = 1; i <= steps; ++i) {
        const float angle = 4.0F * std::numbers::pi_v<float> * static_cast<float>(i) / steps;
        path.push_back(
            {from.x + radius * std::sin(angle), from.y + radius * (1 - std::cos(angle))});
    }
    return path;
}

std::size_t measure(Session& session, Mirror& mirror, const std::filesystem::path& log,
                    const Kind& kind, std::size_t from) {
    session.hand.drag_along(mirror.grip(kind.plane, kind.grip, kind.what),
                            path_from(mirror.grip(kind.plane, kind.grip, kind.what), 30.0F), 0.025);
    session.hand.key("ctrl+z");
    // Until the picture of what came last is there.
    within(1.0, [] { return false; });
    Values frames, latency;
    std::string slowest;
    double worst = 0.0;
    const std::vector<nlohmann::json> lines = lines_of(log, from);
    for (const nlohmann::json& line : lines) {
        const double ms = line["frame_ms"];
        for (const double each : line["latency_ms"]) latency.push_back(each);
        if (line["dragging"] != true) continue;
        frames.push_back(ms);
        if (ms < worst) continue;
        worst = ms;
        slowest.clear();
        for (const char* name : {"results_ms", "picture_ms", "build_ms", "draw_ms", "swap_ms"})
            slowest += (slowest.empty() ? "" : " ") +
                       std::to_string(std::lround(line[name].get<double>()));
    }
    std::printf("%4d  %-9s  %6zu  %6.1f %6.1f %6.1f   %7zu  %6.0f %6.0f %6.0f   %s\n",
                session.screen.height(), kind.name, frames.size(), part(frames, 0.5),
                part(frames, 0.95), part(frames, 1.0), latency.size(), part(latency, 0.5),
                part(latency, 0.95), part(latency, 1.0), slowest.c_str());
    std::fflush(stdout);
    CHECK(frames.size() > 10);
    CHECK_FALSE(latency.empty());
    return from + lines.size();
}

void measure_at(const Screen& screen) {
    Session session("drag-times", screen);
    const std::filesystem::path file =
        std::filesystem::path(KEYSTEAD_SOURCE_DIR) / "assets" / "sets" / "harbour-choir-short.json";
    const std::filesystem::path log = session.sets() / "frames.jsonl";
    const int width = screen.width(), height = screen.height();
    session.start({file.string(), "--frame-log", log.string(), "--size",
                   std::to_string(width) + "x" + std::to_string(height)});
    std::printf("size  grip       frames  median   95 %%  worst   changes  median   95 %%  worst   "
                "worst frame: results picture build draw swap\n"
                "                        ms                         to the picture, ms\n");
    Mirror mirror(set_in(file), file, static_cast<float>(width), static_cast<float>(height));
    session.photograph("drag-times-" + std::to_string(height), 4.0);
    std::size_t from = lines_of(log, 0).size();
    for (const Kind& kind : kinds) from = measure(session, mirror, log, kind, from);
}

} // namespace

TEST_CASE("Frames while something is dragged at 1280 x 720", "[.drag-times]") {
    measure_at(the_screen());
}

TEST_CASE("Frames while something is dragged at 1920 x 1080", "[.drag-times]") {
    const Screen large(1920, 1080);
    measure_at(large);
}
