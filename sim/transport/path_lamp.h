// A light as paths ask it, from sixteen places at a time.
#pragma once

#include "sim/light/colour.h"
#include "sim/light/emission_lanes.h"
#include "sim/transport/path_random.h"

namespace keystead::path_lanes {

inline constexpr float pi_f = 3.14159265F;

KEYSTEAD_INLINE F16 luminance(const V16& rgb) {
    return rgb.x * static_cast<float>(luminance_share.r) +
           rgb.y * static_cast<float>(luminance_share.g) +
           rgb.z * static_cast<float>(luminance_share.b);
}

struct Lamp {
    emission_lanes::EmitterFace face;
    std::shared_ptr<const DirectionTable> measured; ///< null: no table
    int light = 0;                                  ///< index in the set
    float area_m2 = 0.0F;
    float reach_m = 0.0F;     ///< from the centre to the farthest place of the face
    glm::vec3 exitance{0.0F}; ///< at its power, in its colour, over the shutter time
};

Lamp make_lamp(const Emitter& emitter, int light, double shutter_s);

/// Places of a light as seen from points.
struct LampViews {
    V16 direction; ///< unit, to the light
    F16 distance_m;
    F16 radiance; ///< for an exitance of 1; 0 where nothing is sent
    F16 density;  ///< of sampling that direction, per steradian
};

/// A place of the face and what belongs to it, in its own frame.
struct FacePlaces {
    V16 at, normal;
    F16 relative; ///< exitance over the mean
};

KEYSTEAD_INLINE V16 out_of_face(const emission_lanes::EmitterFace& face, const V16& local) {
    return V16(face.across) * local.x + V16(face.upward) * local.y + V16(face.outward) * local.z;
}

KEYSTEAD_INLINE F16 lamp_per_lumen(const Lamp& lamp, const V16& leaving) {
    return lamp.measured != nullptr ? lane_intensity(lamp.face, *lamp.measured, leaving)
                                    : F16(0.0F);
}

/// Radius of a cap's sphere, and where its middle lies along the beam.
KEYSTEAD_INLINE float cap_radius(const emission_lanes::EmitterFace& face) {
    return 0.5F * (face.half_size.x * face.half_size.x / face.depth + face.depth);
}
KEYSTEAD_INLINE float cap_middle(const emission_lanes::EmitterFace& face) {
    const float behind = cap_radius(face) - face.depth;
    return face.bulges ? -behind : behind;
}

KEYSTEAD_INLINE F16 relative_at(const emission_lanes::EmitterFace& face, const V16& at) {
    if (face.shape == emission::shape_bare) return F16(1.0F);
    return emission_lanes::exitance_at(face, P16(at.x / face.half_size.x, at.y / face.half_size.y));
}

/// From the unit square to a face, uniform by area: as emitter_point.
KEYSTEAD_INLINE FacePlaces face_places(const emission_lanes::EmitterFace& face, const F16& u,
                                       const F16& v) {
    const F16 a = F16(2.0F) * u - 1.0F, b = F16(2.0F) * v - 1.0F;
    FacePlaces place;
    place.normal = V16(0.0F, 0.0F, 1.0F);
    if (face.shape == emission::shape_rectangle) {
        place.at = V16(a * face.half_size.x, b * face.half_size.y, 0.0F);
        place.relative = relative_at(face, place.at);
        return place;
    }
    // Concentric map (Shirley and Chiu, 1997), in polar terms.
    const F16 r = max(max(abs(a), abs(b)), 1e-12F);
    const F16 eighths = choose(a >= abs(b), b / r,
                               choose(b >= abs(a), F16(2.0F) - a / r,
                                      choose(-a >= abs(b), F16(4.0F) - b / r, F16(6.0F) + a / r)));
    const F16 turn = eighths * F16(0.125F), inside = r * r;
    F16 sine, cosine;
    if (face.shape == emission::shape_octagon) {
        constexpr float half_side = 0.41421356F; // tan(pi/8)
        const F16 round = choose(eighths < F16(0.0F), eighths + 8.0F, eighths);
        const F16 side = floor(round);
        const F16 along = (F16(2.0F) * (round - side) - 1.0F) * half_side;
        lanes::sine_cosine_of_turns(side * F16(0.125F), sine, cosine);
        place.at = V16(r * (cosine - along * sine) * face.half_size.x,
                       r * (sine + along * cosine) * face.half_size.y, 0.0F);
        place.relative = relative_at(face, place.at);
        return place;
    }
    lanes::sine_cosine_of_turns(turn, sine, cosine);
    if (face.shape == emission::shape_bare) {
        const F16 z = F16(1.0F) - F16(2.0F) * inside;
        const F16 rim = sqrt(max(F16(1.0F) - z * z, 0.0F));
        place.normal = V16(rim * cosine, rim * sine, z);
        place.at = place.normal * F16(face.half_size.x);
        place.relative = F16(1.0F);
        return place;
    }
    if (emission_lanes::is_cap(face)) {
        // Height over the apex is the area fraction (Archimedes).
        const float radius = cap_radius(face);
        const F16 height = inside * face.depth;
        const F16 rho = sqrt(max(height * (F16(2.0F * radius) - height), 0.0F));
        const F16 z = height - face.depth;
        place.at = V16(rho * cosine, rho * sine, face.bulges ? -z : z);
        const V16 from_middle = (place.at - V16(0.0F, 0.0F, F16(cap_middle(face)))) / F16(radius);
        place.normal = face.bulges ? from_middle : -from_middle;
        place.relative = relative_at(face, place.at);
        return place;
    }
    F16 r2 = inside;
    if (face.shape == emission::shape_ring)
        r2 = F16(face.inner * face.inner) + F16(1.0F - face.inner * face.inner) * inside;
    const F16 q = sqrt(r2);
    place.at = V16(q * cosine * face.half_size.x, q * sine * face.half_size.y, 0.0F);
    place.relative = relative_at(face, place.at);
    return place;
}

KEYSTEAD_INLINE void view_places(const Lamp& lamp, const FacePlaces& places, const V16& from_m,
                                 LampViews& views) {
    const V16 normal = out_of_face(lamp.face, places.normal);
    const V16 position = out_of_face(lamp.face, places.at) + V16(lamp.face.centre);
    const V16 toward = position - from_m;
    const F16 d2 = max(dot(toward, toward), 1e-12F);
    views.direction = toward * inversesqrt(d2);
    views.distance_m = sqrt(d2);
    const V16 leaving_way = -views.direction;
    views.radiance =
        emission_lanes::sample_radiance(lamp.face, position, normal, places.relative, leaving_way,
                                        lamp_per_lumen(lamp, leaving_way));
    const F16 leaving = dot(normal, leaving_way);
    views.radiance = choose(leaving > F16(1e-6F), views.radiance, F16(0.0F));
    views.density = d2 / (max(leaving, 1e-6F) * F16(lamp.area_m2));
}

/// The places for numbers `u`, `v` of the unit square, uniform over the face.
KEYSTEAD_INLINE void sample_lamp(const Lamp& lamp, const V16& from_m, const F16& u, const F16& v,
                                 LampViews& views) {
    view_places(lamp, face_places(lamp.face, u, v), from_m, views);
}

/// Distances at which rays meet the light's shining side, the shape itself; negative: they do not.
/// All in the face's frame.
KEYSTEAD_INLINE F16 distance_to_face(const emission_lanes::EmitterFace& face, const V16& from,
                                     const V16& along) {
    if (face.shape == emission::shape_bare || emission_lanes::is_cap(face)) {
        const bool cap = emission_lanes::is_cap(face);
        const float radius = cap ? cap_radius(face) : face.half_size.x;
        const V16 way = from - V16(0.0F, 0.0F, cap ? cap_middle(face) : 0.0F);
        const F16 b = dot(way, along);
        const F16 square = b * b - dot(way, way) + F16(radius * radius);
        const F16 root = sqrt(max(square, 0.0F));
        // The outside of a ball or a bulging cap is met first, the inside of a hollow one last.
        const F16 distance = cap && !face.bulges ? root - b : -(b + root);
        M16 met = square > F16(0.0F);
        if (cap) {
            const F16 z = from.z + distance * along.z;
            met = met && (face.bulges ? z >= F16(0.0F) : z <= F16(0.0F));
        }
        return choose(met, distance, F16(-1.0F));
    }
    const M16 toward = along.z < F16(0.0F);
    const F16 distance = -from.z / choose(toward, along.z, F16(-1.0F));
    const P16 q((from.x + distance * along.x) / face.half_size.x,
                (from.y + distance * along.y) / face.half_size.y);
    const F16 place = emission_lanes::outline_place(face.shape, q);
    M16 met = toward && place <= F16(1.0F);
    if (face.shape == emission::shape_ring) met = met && place >= F16(face.inner);
    return choose(met, distance, F16(-1.0F));
}

/// Where rays meet the light, if they do: `radiance` is 0 where they do not.
KEYSTEAD_INLINE void meet_lamp(const Lamp& lamp, const V16& from_m, const V16& direction,
                               LampViews& views) {
    const emission_lanes::EmitterFace& face = lamp.face;
    const V16 from = emission_lanes::place_in_face(face, from_m);
    const V16 along = emission_lanes::in_face(face, direction);
    const F16 distance = distance_to_face(face, from, along);
    const M16 met = distance > F16(0.0F);
    views.radiance = F16(0.0F);
    if (!lanes::any(met)) return;
    FacePlaces places;
    places.at = from + along * distance;
    places.normal = V16(0.0F, 0.0F, 1.0F);
    if (face.shape == emission::shape_bare) places.normal = normalize(places.at);
    if (emission_lanes::is_cap(face)) {
        const V16 out = normalize(places.at - V16(0.0F, 0.0F, cap_middle(face)));
        places.normal = face.bulges ? out : -out;
    }
    places.relative = relative_at(face, places.at);
    view_places(lamp, places, from_m, views);
    views.radiance = choose(met, views.radiance, F16(0.0F));
}

} // namespace keystead::path_lanes
