// The view that shows a face, if there is one.
#pragma once

#include "sim/import/depth_map.h"

namespace keystead::importing {

/// A nose seen in one view. Places are in the view's frame.
struct NoseView {
    double azimuth_deg = 0.0;
    double lean_deg = 0.0;       ///< top of the head toward the subject's left
    double u_m = 0.0, v_m = 0.0; ///< where the ridge stands out most
    double prominence_m = 0.0;   ///< over the cheeks beside it
    double asymmetry_m = 1.0;    ///< mean difference between the two sides about it
    double score_m = -1.0;       ///< prominence less asymmetry's share
};

/// The part of a mesh that may be a head: the top 0.36 m of it, moved nowhere.
Mesh head_part(const Mesh& mesh);
/// Above the middle of the head part, at its top: the origin of the views.
Vec3 view_origin(const Mesh& head);

/// The best nose of one view; nothing if no ridge of a nose's size stands out.
std::optional<NoseView> nose_in_view(const DepthMap& map, double azimuth_deg);

/// All views about Y in 5° steps, then finer about the best. Nothing if no view shows a nose.
std::optional<NoseView> find_nose(const Mesh& head, const Vec3& origin_m);

/// Mean difference between the two sides of a view about a line through a place that leans toward
/// u, within a face's width and height; 1 if too little shows.
double asymmetry_about(const DepthMap& map, double u_m, double v_m, double lean_deg = 0.0);

} // namespace keystead::importing
