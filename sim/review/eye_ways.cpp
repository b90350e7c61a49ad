#include "sim/review/eye_ways.h"

#include "sim/base/frames.h"
#include "sim/review/column_moves.h"
#include "sim/review/eye_view.h"
#include "sim/shape/content_key.h"

#include <cmath>
#include <glm/gtc/quaternion.hpp>

namespace keystead {

namespace {

/// Share of the light that the worse eye sees.
double worse_eye(const Bench& bench, const Emitter& emitter) {
    double least = 100.0;
    for (const PosedEye& eye : eyes_of(bench.marks)) {
        const auto light = eye_light(bench.studio, eye, emitter);
        least = std::min(least, light ? light->seen_percent : 0.0);
    }
    return least;
}

/// Smallest of 0..most at which the light, moved so, is seen; nothing where even `most` is too
/// little. More shows more: brow, lid and brim are above.
template <class Moved>
std::optional<double> least_move(const Bench& bench, double most, double fine, const Moved& moved) {
    if (most <= 0.0 || worse_eye(bench, moved(most)) < eye_lit_percent) return {};
    double low = 0.0, high = most;
    while (high - low > fine) {
        const double middle = 0.5 * (low + high);
        (worse_eye(bench, moved(middle)) < eye_lit_percent ? low : high) = middle;
    }
    return high;
}

/// From memory where nothing moved.
template <class Find>
std::optional<double> kept(const Bench& bench, const char* what, std::size_t light,
                           const Find& find) {
    ProbeMemory* memory = bench.aids.memory;
    if (memory == nullptr) return find();
    const ReadingKeys& keys = memory->keys();
    const std::uint64_t key =
        ContentKey().add(what).add(keys.everything).add(keys.lights[light]).value();
    const std::vector<double>& values = memory->values(key, [&]() -> std::vector<double> {
        const std::optional<double> found = find();
        return found ? std::vector<double>{*found} : std::vector<double>{};
    });
    return values.empty() ? std::optional<double>() : values.front();
}

/// About `centre_m`, the axis through it unit.
Emitter turned(Emitter emitter, const Vec3& centre_m, const Vec3& axis, double angle_deg) {
    const Mat3 turn = glm::mat3_cast(glm::angleAxis(radians(angle_deg), axis));
    emitter.centre_m = centre_m + turn * (emitter.centre_m - centre_m);
    emitter.axes = turn * emitter.axes;
    return emitter;
}

} // namespace

std::optional<double> drop_for_eyes_m(const Bench& bench, std::size_t light) {
    const double above_m = bench.studio.emitters[light].centre_m.y - bench.marks.face.y;
    return kept(bench, "drop for eyes", light, [&] {
        return least_move(bench, above_m, 0.01, [&](double drop_m) {
            return with_column_raised(bench.studio, light, -drop_m);
        });
    });
}

std::optional<double> nod_for_eyes_deg(const Bench& bench, std::size_t light) {
    // Chin up is the light down, as the head sees it: turned about the head's own sideways axis.
    const Emitter& emitter = bench.studio.emitters[light];
    const Vec3 middle = 0.5 * (bench.marks.pupil_left + bench.marks.pupil_right);
    const Vec3 axis = bench.studio.subject->head_axes[0];
    return least_move(bench, 45.0, 0.2,
                      [&](double nod_deg) { return turned(emitter, middle, axis, nod_deg); });
}

} // namespace keystead
