#include "engine/ui/role_items.h"

#include "engine/edit/role_start.h"

#include <imgui.h>

namespace keystead::ui {

void role_items(Outbox& out) {
    for (const char* role : starting_roles())
        if (ImGui::MenuItem(role)) out.wish(Act::add_light, role);
    ImGui::Separator();
    if (ImGui::MenuItem("of no role yet")) out.wish(Act::add_light);
}

} // namespace keystead::ui
