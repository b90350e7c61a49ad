// Body measures of a subject, millimetres: preset means, scaled to the stature, overridden by the
// document.
//
// Means and standard deviations: ANSUR II, US Army anthropometric survey 2012 (NATICK/TR-15/007),
// unweighted, from the public data file, 4082 men and 1986 women: trained adults, a little leaner
// than sitters at large. Nose, lips and jaw: NIOSH respirator users' survey 2003 (from memory);
// the jaw's means are 4 mm under that survey's, which is of heavier people. Philtrum: a 2019
// photogrammetric survey. All figures with their sources: tests/data/anthropometry.csv.
#pragma once

#include "sim/set/set.h"

namespace keystead {

/// Stature that goes with a preset: the mean, or two standard deviations from it. The document's
/// own stature_m rules; this is what to offer beside it.
double preset_stature_m(const std::string& preset);

} // namespace keystead

namespace keystead::sculpt {

struct Measures {
    bool female = false; ///< which preset's soft shapes apply
    double stature = 0.0;
    double sitting_height = 0.0;
    double tragion_top = 0.0; ///< tragion to the top of the head
    double eye_height_sitting = 0.0;
    double acromial_height = 0.0;
    double head_length = 0.0, head_breadth = 0.0;
    double head_girth = 0.0;
    double bizygomatic = 0.0, bigonial = 0.0;
    double menton_sellion = 0.0, subnasale_sellion = 0.0;
    double philtrum = 0.0; ///< subnasale to the upper lip's red, down the midline
    double nose_protrusion = 0.0, nose_breadth = 0.0, lip_length = 0.0;
    double interpupillary = 0.0;
    double ear_length = 0.0, ear_breadth = 0.0;
    double neck_girth = 0.0;
    double biacromial = 0.0, bideltoid = 0.0;
    double brow_overhang = 0.0; ///< brow over the pupil ahead of the cornea, before the next two
    double brow_depth = 0.0, eye_depth = 0.0;
    double seat_height = 500.0;
    bool seated = false;
};

/// Measures of the named preset at its own stature; an unknown name gives the male means.
///
/// small-… and large-… lie two standard deviations from the mean in every measure that has a
/// published deviation: no one person is so, but sitters lie between. What has none here follows
/// its neighbour: head girth the length and breadth, ears and the eye's height the height of the
/// head, the upper lip the lower face, the shoulder's height the stature.
Measures preset_measures(const std::string& preset);

/// Measures of a subject: unset ones from the preset; body lengths in proportion to the stature,
/// head and neck not (they hardly vary with it).
Measures measures_of(const Subject& subject);

} // namespace keystead::sculpt
