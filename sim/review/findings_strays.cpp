// Light on nose and cheek from behind, and the head's shadow in the picture.
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// From here on light from behind draws the nose (judgement of ours).
constexpr double nose_stops = -2.0;
/// A third of a stop shows on an even background.
constexpr double shadow_stops = 0.33;

const Emitter* emitter_of(const Bench& bench, const std::string& id) {
    for (const Emitter& emitter : bench.studio.emitters)
        if (emitter.light == id) return &emitter;
    return nullptr;
}

/// How far the light must go round the head, away from the camera, until the nose lies in the
/// head's own shadow; negative: not within 40 degrees.
double round_to_clear_nose_deg(const Bench& bench, const Emitter& emitter) {
    const Vec3 nose = bench.marks.pronasale;
    const Vec3 face = bench.marks.face;
    const Mat3& head = bench.studio.subject->head_axes;
    const Vec3 way = emitter.centre_m - face;
    const double azimuth = face_angles(way, head).azimuth_deg;
    constexpr double step_deg = 2.0, most_deg = 40.0;
    for (double turn = step_deg; turn <= most_deg; turn += step_deg) {
        const double signed_turn = std::copysign(turn, azimuth);
        const double c = std::cos(radians(signed_turn)), s = std::sin(radians(signed_turn));
        const Vec3 at = face + Vec3(c * way.x + s * way.z, way.y, c * way.z - s * way.x);
        constexpr double off_skin_m = 2e-3;
        if (bench.studio.rays->blocked(nose + off_skin_m * head[2], at, ray_mask::subject))
            return turn;
    }
    return -1.0;
}

std::uint64_t turn_key(const Bench& bench, const Emitter& emitter) {
    return ContentKey()
        .add("round the nose")
        .add(bench.studio.subject_key)
        .add(emitter.centre_m)
        .value();
}

/// The same from memory where neither sitter nor light moved.
std::optional<double> kept_turn_deg(const Bench& bench, const Emitter& emitter) {
    const double turn = bench.aids.memory
                            ->values(turn_key(bench, emitter),
                                     [&]() -> std::vector<double> {
                                         return {round_to_clear_nose_deg(bench, emitter)};
                                     })
                            .front();
    return turn >= 0.0 ? std::optional<double>(turn) : std::nullopt;
}

void find_nose(const Bench& bench, const Review& review, Findings& findings) {
    // Of lights that are off or weak now, too: turned up again they cast no ray.
    for (const Emitter& emitter : bench.studio.emitters)
        bench.aids.memory->keep(turn_key(bench, emitter));
    for (const SpillReview& spill : review.spill) {
        if (spill.onto != "nose") continue;
        const Emitter* emitter = emitter_of(bench, spill.light);
        const auto turn = kept_turn_deg(bench, *emitter);
        if (spill.stops_from_key < nose_stops) continue;
        findings.push_back(
            {Level::note, "spill-on-nose", spill.light,
             "From behind it still reaches the nose, " + say::number(spill.stops_from_key, 1) +
                 " stops from the key: the tip parts from the face.",
             (turn ? "Take it " + say::with_unit(*turn, 0, "°") + " further round to the back"
                   : std::string("Lower it behind the cheek")) +
                 ", or flag it from the face."});
    }
}

void find_shadow(const Bench& bench, const Review& review, Findings& findings) {
    const Set& set = bench.studio.set;
    const double behind_m = set.background.kind == BackgroundKind::none ? set.room.behind_subject_m
                                                                        : set.background.distance_m;
    for (const BackgroundShadow& shadow : review.background.shadows) {
        if (!shadow.in_frame || shadow.depth_stops < shadow_stops) continue;
        // Half the picture's width there, and half a head.
        const double far_m =
            glm::dot(Vec3(0.0, bench.sight.frame.eye_m.y, -behind_m) - bench.sight.frame.eye_m,
                     -bench.sight.frame.axes[2]);
        const double out_m = far_m * bench.sight.frame.tan_half_width + 0.12;
        const double turn = degrees(std::atan2(out_m, behind_m));
        Finding finding{Level::note, "head-shadow", shadow.light,
                        "Throws the head's shadow on " + std::string(background_word(set)) +
                            " in the picture, " + say::with_unit(std::abs(shadow.aside_m), 2, "m") +
                            " aside, " + say::stops(shadow.depth_stops) + " darker.",
                        "Take it " + say::with_unit(std::ceil(turn), 0, "°") +
                            " round from the line through sitter and background, or higher"};
        if (std::abs(shadow.aside_m) > 0.05)
            finding.remedy += ", or the sitter to " +
                              say::with_unit(behind_m * out_m / std::abs(shadow.aside_m), 1, "m") +
                              " before " + background_word(set);
        finding.remedy += "; light on the background only dilutes it.";
        findings.push_back(std::move(finding));
    }
}

} // namespace

void find_about_strays(const Bench& bench, const Review& review, Findings& findings) {
    find_nose(bench, review, findings);
    find_shadow(bench, review, findings);
}

} // namespace keystead
