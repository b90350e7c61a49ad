// Body measures of a subject, millimetres: preset means, scaled to the stature, overridden by the
// document.
//
// Means: ANSUR II, US Army anthropometric survey 2012 (NATICK/TR-15/007), unweighted means of the
// public data file, 4082 men and 1986 women: trained adults, a little leaner than sitters at large.
// Nose, lips and jaw: NIOSH respirator users' survey 2003 (from memory).
#pragma once

#include "sim/set/set.h"

namespace keystead::sculpt {

struct Measures {
    bool female = false; ///< which preset's soft shapes apply
    double stature = 1756.21;
    double sitting_height = 918.29;
    double tragion_top = 131.15; ///< tragion to the top of the head
    double eye_height_sitting = 804.51;
    double acromial_height = 1440.7;
    double head_length = 199.5, head_breadth = 154.33;
    double head_girth = 574.37;
    double bizygomatic = 142.62, bigonial = 116.0;
    double menton_sellion = 122.64, subnasale_sellion = 52.0, stomion_menton = 48.0;
    double nose_protrusion = 21.1, nose_breadth = 36.6, lip_length = 51.0;
    double interpupillary = 64.016;
    double ear_length = 64.2, ear_breadth = 36.1;
    double neck_girth = 397.65;
    double biacromial = 415.68, bideltoid = 510.42;
    double brow_depth = 0.0, eye_depth = 0.0;
    double seat_height = 500.0;
    bool seated = false;
};

/// Means of the named preset; anything but "mean-female" gives the male means.
Measures preset_measures(const std::string& preset);

/// Measures of a subject: unset ones from the preset; body lengths in proportion to the stature,
/// head and neck not (they hardly vary with it).
Measures measures_of(const Subject& subject);

} // namespace keystead::sculpt
