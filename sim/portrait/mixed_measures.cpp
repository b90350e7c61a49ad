#include "sim/portrait/mixed_measures.h"

#include <cmath>

namespace keystead {

namespace {

/// The numbers of a face that are mixed as they are.
constexpr double FaceMeasures::*plain[] = {
    &FaceMeasures::front_lit,     &FaceMeasures::near_lit,         &FaceMeasures::far_lit,
    &FaceMeasures::far_faint,     &FaceMeasures::side_lit,         &FaceMeasures::nose_lost_mm2,
    &FaceMeasures::nose_core,     &FaceMeasures::shadow_height_mm, &FaceMeasures::tip_shift_mm,
    &FaceMeasures::hair_lost_mm2, &FaceMeasures::chin_dark,        &FaceMeasures::forehead_lit};

} // namespace

void MixedMeasures::add(const FaceMeasures& face, double weight) {
    for (double FaceMeasures::*const member : plain) sum_.*member += weight * face.*member;
    for (int eye = 0; eye < 2; ++eye) sum_.eye_seen[eye] += weight * face.eye_seen[eye];
    sum_.enclosure.peak += weight * face.enclosure.peak;
    stops_ += weight * face.enclosure.stops();
    lip_ += face.lip_touched ? weight : 0.0;
    if (!face.patch) return;
    patch_.area_mm2 += weight * face.patch->area_mm2;
    patch_.width_mm += weight * face.patch->width_mm;
    patch_.height_mm += weight * face.patch->height_mm;
}

FaceMeasures MixedMeasures::mean() const {
    FaceMeasures face = sum_;
    face.enclosure.ring = face.enclosure.peak * std::exp2(-stops_);
    face.lip_touched = lip_ > 0.5;
    face.patch = patch_;
    face.patch->peak = face.enclosure.peak;
    face.patch->ring_stops = stops_;
    return face;
}

} // namespace keystead
