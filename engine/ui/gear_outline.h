// True outlines of gear in the drawing views: points of the body in the room, projected, hulled.
#pragma once

#include "engine/ui/page.h"

namespace keystead::ui {

/// Rim and back of the modifier; the hull of their projection is its silhouette.
std::vector<Vec3> modifier_points(const Light& light, const SupportPose& pose);
/// The emitting face's rim alone.
std::vector<Vec3> face_points(const Light& light, const SupportPose& pose);
/// The lamp body.
std::vector<Vec3> head_points(const Light& light, const SupportPose& pose);
/// Floor outline of a panel: the leaves as seen from above, or the surface's corners.
std::vector<Vec3> panel_points(const Panel& panel);

Points projected(const Page& page, const std::vector<Vec3>& points_m);

} // namespace keystead::ui
