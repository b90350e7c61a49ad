// A form measured as a caliper and a tape would: on the triangles of the finished meshes alone,
// with no landmark, parameter or field of the program that made them.
#pragma once

#include "sim/subject/subject.h"

namespace mesh_measures {

/// Millimetres, defined as in ISO 7250-1 or the survey that tests/data/anthropometry.csv names.
struct Table {
    double tragion_top = 0.0, head_length = 0.0, head_breadth = 0.0;
    double bizygomatic = 0.0, bigonial = 0.0;
    double menton_sellion = 0.0, subnasale_sellion = 0.0, philtrum = 0.0;
    double nose_protrusion = 0.0, nose_breadth = 0.0, lip_length = 0.0;
    double interpupillary = 0.0;
    double ear_length = 0.0, ear_breadth = 0.0;
    double neck_girth = 0.0, biacromial = 0.0, bideltoid = 0.0;
    /// How far the brow overhangs the eye: its foremost point above the pupil, ahead of the cornea.
    double brow_ahead_of_cornea = 0.0;
};

/// Of a bald form, unposed.
Table measured(const keystead::SubjectForm& form);

} // namespace mesh_measures
