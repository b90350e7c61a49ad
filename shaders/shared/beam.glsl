// Where light may leave an emitting face: the beam's profile, and what stands in front of the face.
//
// Same rules as emission.glsl, whose text comes before this one.

// What stands in front of a face: its rim, four flaps on the rim, and for a reflecting umbrella its
// own lamp. Lengths in metres in the face's frame; flaps in the order top, bottom, left, right, by
// sine and cosine of their angle to the beam.
struct FaceFront {
    Flat2 half_size;
    Flat lip;
    Flat door_length; // 0: no flaps
    Flat4 door_sine;
    Flat4 door_cosine;
    Flat lamp_ahead;
    Flat lamp_radius; // 0: no lamp in front
};

// How much wider than its hinge a flap is on either side, over its length: the corners between two
// open flaps stay open, as on real ones.
CONSTANT Flat door_flare = Flat(0.35);

// Radiance over that on the axis of a face that gathers: cos^(exponent - 1).
SHARED Real gathering(Flat exponent, Real cosine) {
    Mask outward = cosine > Real(0.0);
    if (exponent == Flat(1.0)) {
        return choose(outward, Real(1.0), Real(0.0));
    }
    Real power = pow(choose(outward, cosine, Real(1.0)), Real(exponent - Flat(1.0)));
    return choose(outward, power, Real(0.0));
}

// 1 up to `edge` before the cut-off, 0 from the cut-off on; angles in radians.
SHARED Real within_cutoff(Flat cutoff, Flat edge, Real angle) {
    Real t = clamp((cutoff - angle) / max(edge, Flat(1e-4)), Real(0.0), Real(1.0));
    return t * t * (Real(3.0) - Real(2.0) * t);
}

// The profile of a beam for light along `direction` (local frame): both of the above. A cut-off of
// a right angle or more is none.
SHARED Real beam_profile(Flat exponent, Flat cutoff, Flat edge, Real3 direction) {
    Real across = sqrt(direction.x * direction.x + direction.y * direction.y);
    Real along = direction.z / sqrt(across * across + direction.z * direction.z);
    Real shape = gathering(exponent, along);
    if (cutoff >= Flat(1.5707)) {
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
SHARED Mask passes_flap(Flat hinge, Flat half_width, Flat flap_length, Flat sine, Flat cosine,
                        Real2 place, Real2 slope) {
    if (cosine <= Flat(0.0)) {
        return Mask(true);
    }
    Real closing = cosine * slope.x - sine;
    Mask meets = closing > Real(0.0);
    Real reach = (hinge - place.x) / choose(meets, closing, Real(1.0)); // along the flap
    return !meets || reach < Real(0.0) || reach > Real(flap_length) ||
           abs(place.y + reach * cosine * slope.y) > half_width + door_flare * reach;
}

SHARED Mask passes_doors(FaceFront front, Real2 at, Real2 slope) {
    Flat w = front.half_size.x;
    Flat h = front.half_size.y;
    Flat l = front.door_length;
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
SHARED Mask clears_front(FaceFront front, int shape, Real3 p, Real3 direction) {
    Mask outward = direction.z > Real(0.0);
    Mask open_behind = Mask(front.lip <= Flat(0.0) && front.door_length <= Flat(0.0));
    Real along = choose(outward, direction.z, Real(1.0));
    Real2 slope = Real2(direction.x / along, direction.y / along);
    Real ahead = front.lip - p.z;
    Real2 at = Real2(p.x + ahead * slope.x, p.y + ahead * slope.y);
    Mask clear = outward;
    if (front.lip > Flat(0.0)) {
        Real2 q = Real2(at.x / front.half_size.x, at.y / front.half_size.y);
        clear = clear && outline_place(shape, q) <= Real(1.004);
    }
    if (front.lamp_radius > Flat(0.0)) {
        Real there_x = p.x + (front.lamp_ahead - p.z) * slope.x;
        Real there_y = p.y + (front.lamp_ahead - p.z) * slope.y;
        clear = clear &&
                there_x * there_x + there_y * there_y >= Real(front.lamp_radius * front.lamp_radius);
    }
    if (front.door_length > Flat(0.0)) {
        clear = clear && passes_doors(front, at, slope);
    }
    return clear || (!outward && open_behind);
}

// The share of a dish's light that its deflector turns back comes out of the dish just around the
// deflector: exitance there over the mean of the open ring, for a place `r` (0 middle, 1 rim) and a
// deflector of `inner` over the dish's width. Its mean over the ring is inner^2, which is the share
// of the face that the deflector covers.
SHARED Real deflected(Real r, Flat inner) {
    if (inner <= Flat(0.0)) {
        return Real(0.0);
    }
    // Falls in a straight line from the deflector's edge to `outer`.
    Flat outer = min(Flat(2.0) * inner, Flat(0.5) * (Flat(1.0) + inner));
    Flat a2 = inner * inner;
    Flat o2 = outer * outer;
    Flat weight = (outer * (o2 - a2) - Flat(2.0) / Flat(3.0) * (o2 * outer - a2 * inner)) /
                  (outer - inner);
    Flat peak = a2 * (Flat(1.0) - a2) / weight;
    return choose(r >= Real(inner) && r < Real(outer), peak * (outer - r) / (outer - inner),
                  Real(0.0));
}
