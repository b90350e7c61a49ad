#include "engine/ui/layout.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

constexpr float menu_height = 32.0F, findings_height = 36.0F, finding_row = 45.0F,
                strip_height = 84.0F, low_strip_height = 60.0F, panel_width = 312.0F,
                wide_panel_width = 340.0F, wide_window = 1600.0F;
constexpr float smallest_view = 120.0F;
constexpr float lens_margin = 14.0F, caption_height = 34.0F;

/// Every edge on a whole pixel, so that neighbours neither overlap nor leave a gap.
float snapped(float value) {
    return std::floor(value + 0.5F);
}

/// `wanted` kept so that both parts of `whole` have at least `smallest`, or half when they cannot.
float kept(float wanted, float whole, float smallest) {
    if (whole < 2.0F * smallest) return snapped(0.5F * whole);
    return snapped(std::clamp(wanted, smallest, whole - smallest));
}

Rect take_top(Rect& from, float height) {
    const float taken = std::clamp(snapped(height), 0.0F, from.h);
    const Rect top{from.x, from.y, from.w, taken};
    from.y += taken;
    from.h -= taken;
    return top;
}

Rect take_bottom(Rect& from, float height) {
    const float taken = std::clamp(snapped(height), 0.0F, from.h);
    from.h -= taken;
    return {from.x, from.bottom(), from.w, taken};
}

Rect take_right(Rect& from, float width) {
    const float taken = std::clamp(snapped(width), 0.0F, from.w);
    from.w -= taken;
    return {from.right(), from.y, taken, from.h};
}

Rect take_left(Rect& from, float width) {
    const float taken = std::clamp(snapped(width), 0.0F, from.w);
    const Rect left{from.x, from.y, taken, from.h};
    from.x += taken;
    from.w -= taken;
    return left;
}

Divider upright_divider(const Rect& right_part, const Rect& parent, bool main) {
    return {{right_part.x, parent.y, 1.0F, parent.h}, true, main, parent};
}

Divider level_divider(const Rect& lower_part, const Rect& parent, bool main) {
    return {{parent.x, lower_part.y, parent.w, 1.0F}, false, main, parent};
}

/// Lens column at the left, two views stacked at the right.
void arrange_upright(Layout& layout, Rect area, const LayoutInput& in) {
    const float s = in.scale, smallest = smallest_view * s;
    const float by_frame = std::min(
        (area.h - (lens_margin + caption_height) * s) * in.frame_aspect + 2.0F * lens_margin * s,
        0.5F * area.w);
    const float wanted = in.splits.main ? *in.splits.main * area.w : by_frame;
    const Rect whole = area;
    layout.lens = take_left(area, kept(wanted, area.w, smallest));
    const Rect right = area;
    layout.plan = take_top(area, kept(in.splits.cross.value_or(0.6F) * area.h, area.h, smallest));
    layout.elevation = area;
    layout.dividers[0] = upright_divider(right, whole, true);
    layout.dividers[1] = level_divider(layout.elevation, right, false);
}

/// Lens over elevation at the left, plan full height at the right.
void arrange_landscape(Layout& layout, Rect area, const LayoutInput& in) {
    const float s = in.scale, smallest = smallest_view * s;
    const Rect whole = area;
    Rect left = take_left(area, kept(in.splits.main.value_or(0.56F) * area.w, area.w, smallest));
    layout.plan = area;
    const Rect column = left;
    const float by_frame = std::min((left.w - 2.0F * lens_margin * s) / in.frame_aspect +
                                        (lens_margin + caption_height) * s,
                                    0.62F * left.h);
    const float wanted = in.splits.cross ? *in.splits.cross * left.h : by_frame;
    layout.lens = take_top(left, kept(wanted, left.h, smallest));
    layout.elevation = left;
    layout.dividers[0] = upright_divider(layout.plan, whole, true);
    layout.dividers[1] = level_divider(layout.elevation, column, false);
}

void arrange_row(Layout& layout, Rect area, const LayoutInput& in) {
    const float smallest = smallest_view * in.scale;
    const Rect whole = area;
    layout.lens = take_top(area, kept(in.splits.main.value_or(0.58F) * area.h, area.h, smallest));
    const Rect below = area;
    layout.plan = take_left(area, kept(in.splits.cross.value_or(0.42F) * area.w, area.w, smallest));
    layout.elevation = area;
    layout.dividers[0] = level_divider(below, whole, true);
    layout.dividers[1] = upright_divider(layout.elevation, below, false);
}

} // namespace

Rect inset(const Rect& rect, float margin) {
    const float across = std::min(margin, 0.5F * rect.w), down = std::min(margin, 0.5F * rect.h);
    return {rect.x + across, rect.y + down, rect.w - 2.0F * across, rect.h - 2.0F * down};
}

Layout arrange(const LayoutInput& in) {
    const float s = in.scale;
    Rect area{0.0F, 0.0F, std::max(0.0F, std::floor(in.width)),
              std::max(0.0F, std::floor(in.height))};
    Layout layout;
    layout.menu = take_top(area, menu_height * s);
    const float findings =
        in.findings_rows > 0
            ? std::min(findings_height + finding_row * static_cast<float>(in.findings_rows), 270.0F)
            : findings_height;
    // The views keep at least half of what is left, however many findings there are.
    layout.findings =
        take_bottom(area, std::min(findings * s, std::max(36.0F * s, 0.45F * area.h)));
    // Where there is little height, power and gel are left to the panel.
    const float strip = in.height < 480.0F * s ? low_strip_height : strip_height;
    layout.strip = take_bottom(area, std::min(strip * s, 0.3F * area.h));
    const float panel = (in.width > wide_window * s ? wide_panel_width : panel_width) * s;
    layout.panel = take_right(area, std::min(panel, 0.42F * area.w));
    switch (in.arrangement) {
    case Arrangement::upright:
        arrange_upright(layout, area, in);
        break;
    case Arrangement::landscape:
        arrange_landscape(layout, area, in);
        break;
    case Arrangement::row:
        arrange_row(layout, area, in);
        break;
    }
    return layout;
}

float dragged_fraction(const Divider& divider, float position, float scale) {
    const float start = divider.upright ? divider.parent.x : divider.parent.y;
    const float whole = divider.upright ? divider.parent.w : divider.parent.h;
    if (whole < 1.0F) return 0.5F;
    return kept(position - start, whole, smallest_view * scale) / whole;
}

} // namespace keystead::ui
