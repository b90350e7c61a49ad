// Where light may leave an emitting face: the beam's profile, and what stands in front of the face.
//
// Same rules as emission.glsl, whose text comes before this one.

// What stands in front of a face: its rim, four flaps on the rim, and for a reflecting umbrella its
// own lamp. Lengths in metres in the face's frame; flaps in the order top, bottom, left, right, by
// sine and cosine of their angle to the beam.
struct FaceFront {
    Real2 half_size;
    Real lip;
    Real door_length; // 0: no flaps
    Real4 door_sine;
    Real4 door_cosine;
    Real lamp_ahead;
    Real lamp_radius; // 0: no lamp in front
};

// How much wider than its hinge a flap is on either side, over its length: the corners between two
// open flaps stay open, as on real ones.
SHARED const Real door_flare = Real(0.35);

// Radiance over that on the axis of a face that gathers: cos^(exponent - 1).
SHARED Real gathering(Real exponent, Real cosine) {
    if (cosine <= Real(0.0)) {
        return Real(0.0);
    }
    if (exponent == Real(1.0)) {
        return Real(1.0);
    }
    return pow(cosine, exponent - Real(1.0));
}

// 1 up to `edge` before the cut-off, 0 from the cut-off on; angles in radians.
SHARED Real within_cutoff(Real cutoff, Real edge, Real angle) {
    Real t = clamp((cutoff - angle) / max(edge, Real(1e-4)), Real(0.0), Real(1.0));
    return t * t * (Real(3.0) - Real(2.0) * t);
}

// The profile of a beam for light along `direction` (local frame): both of the above. A cut-off of
// a right angle or more is none.
SHARED Real beam_profile(Real exponent, Real cutoff, Real edge, Real3 direction) {
    Real across = sqrt(direction.x * direction.x + direction.y * direction.y);
    Real along = direction.z / sqrt(across * across + direction.z * direction.z);
    Real shape = gathering(exponent, along);
    if (cutoff >= Real(1.5707)) {
        return shape;
    }
    return shape * within_cutoff(cutoff, edge, atan(across, direction.z));
}

// Where a place lies within the outline of a face, over its half width and half height: 0 at the
// middle, 1 at the outline.
SHARED Real outline_place(int shape, Real2 q) {
    if (shape == shape_rectangle) {
        return max(abs(q.x), abs(q.y));
    }
    if (shape == shape_octagon) {
        return max(max(abs(q.x), abs(q.y)), (abs(q.x) + abs(q.y)) * Real(0.70710678118654752));
    }
    return sqrt(q.x * q.x + q.y * q.y);
}

// Does light pass a flap? All in the flap's terms: `hinge` from the axis, `place` of the light at
// the hinge's plane toward the flap and `aside` along the hinge, with their slopes over the beam.
SHARED bool passes_flap(Real hinge, Real half_width, Real flap_length, Real sine, Real cosine,
                        Real2 place, Real2 slope) {
    Real closing = cosine * slope.x - sine;
    if (cosine <= Real(0.0) || closing <= Real(0.0)) {
        return true;
    }
    Real reach = (hinge - place.x) / closing; // along the flap
    if (reach < Real(0.0) || reach > flap_length) {
        return true;
    }
    return abs(place.y + reach * cosine * slope.y) > half_width + door_flare * reach;
}

SHARED bool passes_doors(FaceFront front, Real2 at, Real2 slope) {
    Real w = front.half_size.x;
    Real h = front.half_size.y;
    Real l = front.door_length;
    return passes_flap(h, w, l, front.door_sine.x, front.door_cosine.x, Real2(at.y, at.x),
                       Real2(slope.y, slope.x)) &&
           passes_flap(h, w, l, front.door_sine.y, front.door_cosine.y, Real2(-at.y, at.x),
                       Real2(-slope.y, slope.x)) &&
           passes_flap(w, h, l, front.door_sine.z, front.door_cosine.z, Real2(-at.x, at.y),
                       Real2(-slope.x, slope.y)) &&
           passes_flap(w, h, l, front.door_sine.w, front.door_cosine.w, Real2(at.x, at.y),
                       Real2(slope.x, slope.y));
}

// Does light that leaves the face at `p` along `direction` get past what stands in front of it?
SHARED bool clears_front(FaceFront front, int shape, Real3 p, Real3 direction) {
    if (direction.z <= Real(0.0)) {
        return front.lip <= Real(0.0) && front.door_length <= Real(0.0);
    }
    Real2 slope = Real2(direction.x, direction.y) / direction.z;
    Real ahead = front.lip - p.z;
    Real2 at = Real2(p.x, p.y) + ahead * slope;
    if (front.lip > Real(0.0) && outline_place(shape, at / front.half_size) > Real(1.004)) {
        return false;
    }
    if (front.lamp_radius > Real(0.0)) {
        Real2 there = Real2(p.x, p.y) + (front.lamp_ahead - p.z) * slope;
        if (there.x * there.x + there.y * there.y < front.lamp_radius * front.lamp_radius) {
            return false;
        }
    }
    return front.door_length <= Real(0.0) || passes_doors(front, at, slope);
}

// The share of a dish's light that its deflector turns back comes out of the dish just around the
// deflector: exitance there over the mean of the open ring, for a place `r` (0 middle, 1 rim) and a
// deflector of `inner` over the dish's width. Its mean over the ring is inner^2, which is the share
// of the face that the deflector covers.
SHARED Real deflected(Real r, Real inner) {
    Real outer = min(Real(2.0) * inner, Real(0.5) * (Real(1.0) + inner));
    if (r < inner || r >= outer || inner <= Real(0.0)) {
        return Real(0.0);
    }
    // Falls in a straight line from the deflector's edge to `outer`.
    Real a2 = inner * inner;
    Real o2 = outer * outer;
    Real weight = (outer * (o2 - a2) - Real(2.0) / Real(3.0) * (o2 * outer - a2 * inner)) /
                  (outer - inner);
    Real peak = a2 * (Real(1.0) - a2) / weight;
    return peak * (outer - r) / (outer - inner);
}
