#include "engine/ui/aim_point.h"
#include "engine/ui/footprint_card.h"
#include "engine/ui/marks.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"

#include <algorithm>

namespace keystead::ui {

namespace {

std::string name_of_light(const Light& light) {
    return light.role.empty() ? light.id : light.role;
}

void title(Flow& flow, const Light& light, std::size_t index) {
    TagLook look;
    look.selected = true, look.on_page = false, look.radius = 13.0F;
    tag(flow.pen, {flow.left - flow.px(0), flow.y + flow.px(27)}, letter_of(index), look);
    panel_title(flow, name_of_light(light),
                modifier_words(light.modifier) + " on a " + support_words(light.support));
    bool switched = false;
    link_right(flow.pen, "switch", light.on ? "switch off" : "switch on", flow.right,
               flow.y - flow.px(36), switched);
    if (switched) flow.out.perform(set_flag(light_path(light.id, "on"), !light.on));
}

void verdict(Flow& flow, const Light& light, const Stability& stability,
             const StabilityLimits& limits) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    flow.skip(10);
    state_glyph(flow.pen, flow.left - flow.px(18), flow.y + flow.px(17), 17, stability.verdict,
                state_colour(c, stability.verdict));
    const float indent = 10.0F, left = flow.left + flow.px(indent);
    const Vec2 base = light.support.base.position_m;
    text_at(flow.pen, font.medium, left, flow.y + flow.px(10), c.text,
            verdict_head(stability, base));
    flow.skip(21);
    note(flow, verdict_body(stability, base), c.text2, font.body, indent);
    flow.skip(2);
    note(flow, verdict_assumption(light.support, limits), c.text3, nullptr, indent);
    flow.skip(8);
}

/// What this light does, from the review.
void readings(Flow& flow, const Shown& shown, const Light& light) {
    if (shown.review == nullptr) return;
    for (const LightReview& review : shown.review->lights) {
        if (review.id != light.id) continue;
        hairline(flow);
        flow.skip(6);
        text_row(flow, "to the face", number_text(review.distance_to_face_m, 2) + " m");
        text_row(flow, "reading",
                 !light.on         ? "off"
                 : review.f_number ? review.reading
                                   : "does not reach the face");
        if (light.on && review.pattern_if_alone != Pattern::none)
            text_row(flow, "alone it makes", name_of(review.pattern_if_alone));
        text_row(flow, "seen from the face", number_text(review.apparent_size_deg, 0) + "° across");
        text_row(flow, "nose shadow edge", number_text(review.penumbra_mm, 0) + " mm");
        flow.skip(6);
    }
}

} // namespace

void light_panel(Flow& flow, const Shown& shown, OpenSections& open, std::size_t index) {
    const Light& light = shown.set().lights[index];
    const Stability& stability = shown.drawn.stability[index];
    title(flow, light, index);
    footprint_card(flow, light, shown.drawn.poses[index], stability);
    verdict(flow, light, stability, shown.set().limits);
    support_section(flow, light, open, shown.keeps_distance);
    bags_section(flow, light, stability, open);
    head_section(flow, light, open);
    modifier_section(flow, light, open);
    aim_section(flow, light, shown.drawn.poses[index],
                aim_point(light, shown.drawn.poses[index], shown.drawn.landmarks), open);
    loads_section(flow, light, stability, open);
    readings(flow, shown, light);
    hairline(flow);
    flow.skip(4);
    if (const auto role = words_row(flow, "called", light_path(light.id, "role"), light.role))
        flow.out.perform(set_word(light_path(light.id, "role"), *role));
    bool remove = false;
    link_right(flow.pen, "remove", "take this light away", flow.right, flow.y + flow.px(13),
               remove);
    if (remove) {
        flow.out.perform(RemoveLight{light.id});
        flow.out.select = Selection{};
    }
    flow.skip(26);
}

void loads_section(Flow& flow, const Light& light, const Stability& s, OpenSections& open) {
    const std::string summary =
        number_text(s.load_kg, 1) + " of " + number_text(s.load_limit_kg, 0) + " kg";
    if (!section(flow, "Loads", summary, open.loads)) return;
    text_row(flow, "all of it weighs", number_text(s.mass_kg, 1) + " kg");
    text_row(flow, "on the stand",
             number_text(s.load_kg, 1) + " of " + number_text(s.load_limit_kg, 1) + " kg");
    text_row(flow, "push that tips it",
             number_text(s.push_to_tip_n, 0) + " N at " + number_text(s.push_height_m, 2) + " m");
    if (light.support.arm) {
        text_row(flow, "clamp holds",
                 number_text(s.grip_torque_nm, 1) + " of " + number_text(s.grip_limit_nm, 0) +
                     " N·m");
        text_row(flow, "balances with", number_text(s.counterweight_needed_kg, 1) + " kg");
    }
    for (const StrikeStep& step : s.strike)
        text_row(flow, "without the " + step.taken_off,
                 std::string(state_word(step.verdict)) + ", " + number_text(step.tip_angle_deg, 1) +
                     "°");
    if (light.support.base.wheels && s.snag_speed_m_s > 0.0)
        text_row(flow, "snags and tips at", number_text(s.snag_speed_m_s, 1) + " m/s");
    flow.skip(6);
}

} // namespace keystead::ui
