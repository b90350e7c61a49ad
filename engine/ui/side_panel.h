// The panel at the right: everything about what is selected, as rows that give commands.
#pragma once

#include "engine/render/display.h"
#include "engine/ui/drawn.h"
#include "engine/ui/head_follow.h"
#include "engine/ui/widgets.h"
#include "sim/review/review.h"
#include "sim/studio/own_points.h"

#include <string>

namespace keystead::ui {

/// What the meter's section has in hand: no part of the document.
struct MeterDesk {
    std::string point = "face"; ///< the meter point that is shown
    bool without = false;       ///< all without each light, instead of each alone
    std::string pasted;         ///< a list of readings not taken in yet
};

/// Which sections are open; one switch each, for all lights alike.
struct OpenSections {
    bool support = true, placing = false, bags = true, head = false, modifier = false, aim = false,
         loads = false;
    bool pose = true, looks = true, worn = false, optics = true, look = true, place = true;
    bool room = true, background = true;
    bool own = false, props = false;
    bool meter = true, spots = false;
    bool tall_panel_seen = false;
    MeterDesk meter_desk;
};

/// All a panel may look at.
struct Shown {
    const Drawn& drawn;
    const Review* review = nullptr; ///< null until the first one is there
    Selection selection;
    ShownAs shown_as = ShownAs::picture; ///< of the lens picture
    bool clipping_marks = false;
    const Studio* studio = nullptr;      ///< null until the first one is there
    std::optional<OwnPointKind> placing; ///< waits for a click in the picture
    HeadFollow* follow = nullptr;        ///< the light that moves with the head, if one does
    bool keeps_distance = false;         ///< a light that is moved stays as far from the face
    const Set& set() const { return drawn.set; }
};

/// The whole panel, at the flow's place; the flow ends below its last row.
void side_panel(Flow& flow, const Shown& shown, OpenSections& open);

// Its parts.
void light_panel(Flow& flow, const Shown& shown, OpenSections& open, std::size_t index);
void support_section(Flow& flow, const Light& light, OpenSections& open,
                     bool keeps_distance = false);
void bags_section(Flow& flow, const Light& light, const Stability& stability, OpenSections& open);
void head_section(Flow& flow, const Light& light, OpenSections& open);
void modifier_section(Flow& flow, const Light& light, OpenSections& open);
/// `looks_at_m`: where the beam meets what it looks at now.
void aim_section(Flow& flow, const Light& light, const SupportPose& pose, const Vec3& looks_at_m,
                 OpenSections& open);
void loads_section(Flow& flow, const Light& light, const Stability& stability, OpenSections& open);
/// `follow`: whether a light moves with the head, and with what it does; null: none can.
void subject_panel(Flow& flow, const Set& set, OpenSections& open, HeadFollow* follow = nullptr);
void camera_panel(Flow& flow, const Shown& shown, OpenSections& open);
void room_panel(Flow& flow, const Shown& shown, OpenSections& open);
void props_section(Flow& flow, const Shown& shown, OpenSections& open);
void background_section(Flow& flow, const Set& set, OpenSections& open);
void panel_panel(Flow& flow, const Set& set, std::size_t index, OpenSections& open);

/// A reflectance by its luminous share, percent: lighter or darker in the same hue.
void grey_row(Flow& flow, const std::string& label, const std::string& path,
              const Reflectance& reflectance);
/// A point of the room: to camera right, height, and along the camera's axis, called `along`.
void point_rows(Flow& flow, const std::string& path, const Vec3& point_m, const char* along);
/// Title and second line beside a mark that is drawn by the caller.
void panel_title(Flow& flow, const std::string& title, const std::string& second);

} // namespace keystead::ui
