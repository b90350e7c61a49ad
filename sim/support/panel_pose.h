// Where a panel is: its working frame and its flat leaves, and the support it may hang on.
#pragma once

#include "sim/support/pose.h"

#include <optional>
#include <vector>

namespace keystead {

/// One flat board or cloth.
struct PanelLeaf {
    Vec3 centre_m{0.0};
    Mat3 axes{1.0}; ///< columns: right (seen from behind), up, out of the working side
    double width_m = 1.0, height_m = 1.0;
};

struct PanelPose {
    Vec3 bottom_m{0.0}; ///< middle of the lower edge; v_flat: lower end of the hinge
    Mat3 axes{1.0};     ///< as a leaf's; v_flat: of the fold's middle
    std::vector<PanelLeaf> leaves;
    std::optional<SupportPose> support;
};

/// A panel on a support hangs by its middle from the support's tip, else it stands where its
/// position says.
PanelPose pose_panel(const Panel& panel);

/// Along the working side.
AimTarget panel_aim(const Panel& panel);

/// The panel as the load at the tip of its support, for statics: a light without a head whose
/// modifier has the panel's mass. Only where the panel has a support.
Light as_load(const Panel& panel);

} // namespace keystead
