// Whites of the face, and how the light falls off down the body.
#include "sim/meter/meter_point.h"
#include "sim/review/passes.h"
#include "sim/review/tone_face.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// Light that gives most of what is over full scale; -1: nothing is.
int brightest_there(const FacePicture& picture) {
    int best = -1;
    double most = 0.0;
    for (std::size_t light = 0; light < picture.by_light.size(); ++light) {
        double sum = 0.0;
        for (std::size_t i = 0; i < picture.cells.size(); ++i)
            if (picture.matt[i] + picture.gloss[i] > 1.0)
                sum += picture.weight[i] * picture.by_light[light][i];
        if (sum > most) {
            most = sum;
            best = static_cast<int>(light);
        }
    }
    return best;
}

/// Tone that a hundredth of the area lies above.
double brightest_tone(const FacePicture& picture) {
    std::vector<std::pair<double, double>> tones;
    double all = 0.0;
    for (std::size_t i = 0; i < picture.cells.size(); ++i) {
        tones.emplace_back(picture.matt[i] + picture.gloss[i], picture.weight[i]);
        all += picture.weight[i];
    }
    std::sort(tones.begin(), tones.end(), std::greater<>());
    double sum = 0.0;
    for (const auto& [tone, weight] : tones)
        if ((sum += weight) >= 0.01 * all) return tone;
    return 0.0;
}

double matt_percent(const FacePicture& picture) {
    double all = 0.0, over = 0.0;
    for (std::size_t i = 0; i < picture.cells.size(); ++i) {
        all += picture.weight[i];
        if (picture.matt[i] > 1.0) over += picture.weight[i];
    }
    return all > 0.0 ? 100.0 * over / all : 0.0;
}

struct BodyPlace {
    const char* name;
    Vec3 position_m;
};

/// Head and chest as posed; knees and feet by common proportions: 0.285 of the stature high
/// (kneecap height, ISO 7250-1 surveys), seated half a metre ahead of the seat's middle.
std::array<BodyPlace, 4> body_places(const Bench& bench) {
    const Subject& subject = bench.studio.set.subject;
    const bool seated = subject.posture == Posture::seated;
    const Vec3 ahead = direction_from({subject.body_turn_deg, 0.0}) * (seated ? 0.5 : 0.0);
    const Vec3& chest = bench.marks.chest;
    constexpr double foot_m = 0.10;
    const double knee_m =
        seated ? std::min(0.285 * subject.stature_m + 0.02, subject.seat_height_m + 0.08)
               : 0.285 * subject.stature_m;
    return {{{"head", bench.marks.face},
             {"chest", chest},
             {"knee", Vec3(chest.x + ahead.x, knee_m, chest.z + ahead.z)},
             {"feet", Vec3(chest.x + ahead.x, foot_m, chest.z + ahead.z)}}};
}

std::optional<double> stops_above(double light, double reference) {
    if (light <= 0.0 || reference <= 0.0) return {};
    return std::log2(light / reference);
}

} // namespace

std::optional<ClippedFace>
review_clipped(const Bench& bench, const std::vector<PanelReview>& panels, ReviewMemory& memory) {
    const FacePicture picture = picture_face(bench, panels, memory);
    if (picture.cells.empty()) return {};
    ClippedFace clipped;
    clipped.percent = clipped_percent(picture);
    const double tone = brightest_tone(picture);
    clipped.brightest_stops = tone > 0.0 ? std::max(-12.0, std::log2(tone)) : -12.0;
    if (clipped.percent <= 0.0) return clipped;
    const int light = brightest_there(picture);
    if (light < 0) return clipped;
    clipped.mostly_by = bench.studio.emitters[static_cast<std::size_t>(light)].light;
    clipped.by_gloss = matt_percent(picture) < 0.5 * clipped.percent;
    // The least that leaves a five-hundredth of the face white, in tenths.
    constexpr double wanted_percent = 0.2, most_stops = 6.0;
    for (double less = 0.1; less <= most_stops; less += 0.1)
        if (clipped_percent(picture, static_cast<std::size_t>(light), less) <= wanted_percent) {
            clipped.stops_less = less;
            break;
        }
    return clipped;
}

std::vector<BodyReading> review_body(const Bench& bench) {
    std::vector<BodyReading> body;
    if (bench.key < 0) return body;
    const auto key = static_cast<std::size_t>(bench.key);
    const Studio& studio = bench.studio;
    double key_at_head = 0.0, all_at_head = 0.0;
    for (const BodyPlace& place : body_places(bench)) {
        // Held before the sitter toward the key: gear and panels shade it, the body does not.
        const Probe probe{place.position_m, way_to_light(studio, key, place.position_m),
                          Receptor::flat, ray_mask::gear | ray_mask::panel};
        double all = 0.0, of_key = 0.0;
        for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
            const double light = direct_lx_s(studio, bench.aids, i, probe, 34);
            all += light;
            if (i == key) of_key = light;
        }
        if (body.empty()) {
            key_at_head = of_key;
            all_at_head = all;
        }
        body.push_back({place.name, place.position_m.y, stops_above(of_key, key_at_head),
                        stops_above(all, all_at_head)});
    }
    return body;
}

} // namespace keystead
