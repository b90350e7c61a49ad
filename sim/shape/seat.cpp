// A round wooden stool for a seated sitter.

#include "sim/shape/build/solids.h"
#include "sim/shape/content_key.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>

namespace keystead {

namespace {

constexpr double seat_radius_m = 0.175;
constexpr double seat_thickness_m = 0.034;
constexpr double leg_splay_m = 0.055; ///< the feet stand this much further out than the tops

std::uint64_t key_of(const Subject& subject) {
    return ContentKey().add("stool").add(subject.seat_height_m).add(subject.body_turn_deg).value();
}

} // namespace

std::uint64_t first_seat_key(const Subject& subject) {
    return part_key(key_of(subject), 0);
}

std::vector<ScenePart> seat_parts(const Subject& subject) {
    if (subject.posture != Posture::seated) return {};
    const double height = subject.seat_height_m;
    const double under = height - seat_thickness_m;
    PartList list("subject", ray_mask::gear);
    list.add("stool", materials::wood(),
             build::lathe(build::standing({0, 0, 0}, subject.body_turn_deg),
                          {{0, under},
                           {seat_radius_m - 0.012, under},
                           {seat_radius_m, under + 0.010},
                           {seat_radius_m, height - 0.008},
                           {seat_radius_m - 0.008, height},
                           {0.11, height - 0.003},
                           {0, height - 0.005}},
                          32));
    const auto leg_at = [&](int leg, double y) {
        const Vec3 out = direction_from({subject.body_turn_deg + 45.0 + 90.0 * leg, 0.0});
        return out * (0.125 + leg_splay_m * (1.0 - y / under)) + Vec3(0, y, 0);
    };
    for (int leg = 0; leg < 4; ++leg) {
        // A short upright end gives the leg a flat foot on the floor.
        const Vec3 foot = leg_at(leg, 0.0);
        list.add("stool", materials::wood(),
                 build::bar(foot, foot + Vec3(0, 0.012, 0), 0.0135, 0.0145, 12));
        list.add("stool", materials::wood(),
                 build::bar(leg_at(leg, 0.008), leg_at(leg, under), 0.0140, 0.0175, 12));
        for (const double part : {0.30, 0.46}) {
            if ((leg % 2 == 0) == (part > 0.4)) continue;
            list.add("stool", materials::wood(),
                     build::bar(leg_at(leg, part * under), leg_at((leg + 1) % 4, part * under),
                                0.009, 8));
        }
    }
    return list.take(key_of(subject));
}

} // namespace keystead
