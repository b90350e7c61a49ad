// Lights drawn on a sheet: stand, arm, counterweight, bags, lamp, modifier, aim.
#pragma once

#include "engine/ui/sheet.h"

namespace keystead::ui {

struct GearLook {
    ImU32 ink = 0, ink2 = 0;
    bool selected = false;
    float body_width = 1.4F; ///< outline of bodies
};
/// Marks everything that labels should keep off, before the first label is placed.
void register_obstacles(const Drawing& d);

GearLook look_of(const Drawing& d, std::size_t light);

void draw_stand_plan(const Drawing& d, std::size_t light, const GearLook& look);
void draw_stand_elevation(const Drawing& d, std::size_t light, const GearLook& look);
void draw_arm(const Drawing& d, std::size_t light, const GearLook& look);
void draw_body(const Drawing& d, std::size_t light, const GearLook& look);
void draw_aim(const Drawing& d, std::size_t light, const GearLook& look);
/// Letter and, where there is room, the role beside the body.
void draw_tag(const Drawing& d, std::size_t light);
void draw_panel(const Drawing& d, const Panel& panel);
/// What the picked light or the camera looks at, to be dragged; and the sitter's handle.
void draw_handles(const Drawing& d);
/// Box and, in plan, the field of view to the background.
void draw_camera(const Drawing& d);

} // namespace keystead::ui
