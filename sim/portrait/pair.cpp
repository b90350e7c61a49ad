#include "sim/portrait/pair.h"

#include <cmath>

namespace keystead {

namespace {

/// Weaker than this under the key it is no second light.
constexpr double least_stops = -5.0;
/// Off the face's mid-plane no further than this.
constexpr double middle_deg = 20.0;

bool on_middle(const Angles& light) {
    return std::abs(light.azimuth_deg) <= middle_deg;
}

} // namespace

const char* name_of(Pair pair) {
    switch (pair) {
    case Pair::clamshell:
        return "clamshell";
    case Pair::fill_on_axis:
        return "fill on the lens axis";
    case Pair::key_and_kicker:
        return "key and kicker";
    case Pair::key_and_hair:
        return "key and hair light";
    case Pair::none:
        break;
    }
    return "";
}

Pair pair_of(const Angles& key, const PairLight& other) {
    if (other.stops_from_key < least_stops) return Pair::none;
    const double round = std::abs(other.face.azimuth_deg), up = other.face.elevation_deg;
    constexpr double above_deg = 15.0, below_deg = -10.0, straight_down_deg = -80.0;
    if (on_middle(key) && on_middle(other.face) && key.elevation_deg >= above_deg &&
        up <= below_deg && up >= straight_down_deg)
        return Pair::clamshell;
    // A light at the lens has no other name, wherever the head is turned.
    constexpr double at_lens_deg = 12.0;
    if (other.off_lens_deg <= at_lens_deg) return Pair::fill_on_axis;
    constexpr double behind_deg = 100.0, kicker_up_deg = 35.0, hair_up_deg = 40.0;
    if (round >= behind_deg && up >= hair_up_deg) return Pair::key_and_hair;
    if (round >= behind_deg && up <= kicker_up_deg) return Pair::key_and_kicker;
    return Pair::none;
}

} // namespace keystead
