#include "engine/ui/meter_section.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"
#include "sim/meter/shutter.h"

#include <cmath>

namespace keystead::ui {

namespace {

const std::vector<double>& shutters() {
    static const std::vector<double> times{1.0 / 15,  1.0 / 30,  1.0 / 60,  1.0 / 80,
                                           1.0 / 100, 1.0 / 125, 1.0 / 160, 1.0 / 200,
                                           1.0 / 250, 1.0 / 320, 1.0 / 500};
    return times;
}

void exposure_rows(Flow& flow, const Camera& camera, const Review* review) {
    number_row(flow, {"focal length",
                      "camera.focal_length_mm",
                      camera.focal_length_mm,
                      {Dimension::length, "mm", 8, 800, 0, {}, true},
                      0.5,
                      {}});
    number_row(flow, {"aperture, f/",
                      "camera.f_number",
                      camera.f_number,
                      {Dimension::plain, "", 0.7, 90, 1, {}},
                      0.05,
                      {}});
    number_row(flow, {"speed, ISO",
                      "camera.iso",
                      camera.iso,
                      {Dimension::plain, "", 3, 409600, 0, {}},
                      5.0,
                      {}});
    std::vector<std::string> options;
    for (const double time : shutters()) options.push_back(shutter_words(time));
    const int picked =
        choice_row(flow, "shutter", "camera.shutter_s", shutter_words(camera.shutter_s), options);
    if (picked >= 0)
        flow.out.perform(SetValue{"camera.shutter_s",
                                  std::to_string(shutters()[static_cast<std::size_t>(picked)])});
    const int sync = choice_row(flow, "flash sync up to", "camera.sync_s",
                                shutter_words(camera.sync_s), options);
    if (sync >= 0)
        flow.out.perform(
            SetValue{"camera.sync_s", std::to_string(shutters()[static_cast<std::size_t>(sync)])});
    const bool upright = camera.orientation == Orientation::upright;
    if (toggle_row(flow, "frame", "camera.orientation", true, upright ? "upright" : "landscape",
                   ""))
        flow.out.perform(set_word("camera.orientation", upright ? "landscape" : "upright"));
    if (review != nullptr && review->exposure.stops_off) {
        const double off = *review->exposure.stops_off;
        note(flow,
             std::abs(off) < 0.05 ? "Set as the meter at the face reads."
                                  : number_text(std::abs(off), 1) + " stop " +
                                        (off > 0.0 ? "more light than it is set for."
                                                   : "less light than it is set for."),
             flow.colour().text2);
    }
    flow.skip(6);
}

/// White balance, shoulder and what the lens view shows in place of the picture.
void look_rows(Flow& flow, const Shown& shown) {
    const Camera& camera = shown.set().camera;
    number_row(flow, {"white balance",
                      "camera.white_balance_k",
                      camera.white_balance_k,
                      {Dimension::temperature, "K", 1500, 20000, 0, {}},
                      25.0,
                      {}});
    if (toggle_row(flow, "highlights", "camera.soft_shoulder", true,
                   camera.soft_shoulder ? "roll off" : "clip", ""))
        flow.out.perform(set_flag("camera.soft_shoulder", !camera.soft_shoulder));
    const bool stops = shown.shown_as == ShownAs::stops;
    static const std::vector<std::string> ways{"the picture", "stops from the face"};
    const int picked = choice_row(flow, "lens view shows", "shown_as", ways[stops ? 1 : 0], ways);
    if (picked == 0) flow.out.wish(Act::picture_shown);
    if (picked == 1 && !stops) flow.out.wish(Act::stops_shown);
    if (toggle_row(flow, "clipping marks", "clipping_marks", true,
                   shown.clipping_marks ? "shown" : "hidden", ""))
        flow.out.wish(Act::clipping_marks);
    note(flow, anchor_words(camera_display(camera, shown.set().meter)) + ".", flow.colour().text3);
    flow.skip(6);
}

} // namespace

void camera_panel(Flow& flow, const Shown& shown, OpenSections& open) {
    const Camera& camera = shown.set().camera;
    panel_title(flow, "camera",
                number_text(camera.focal_length_mm, 0) + " mm, " + f_words(camera.f_number) +
                    ", ISO " + number_text(camera.iso, 0) + ", " + shutter_words(camera.shutter_s));
    if (section(flow, "Lens and exposure", {}, open.optics))
        exposure_rows(flow, camera, shown.review);
    meter_section(flow, shown, open);
    spot_section(flow, shown, open);
    if (section(flow, "Picture", shown.shown_as == ShownAs::stops ? "stops" : "", open.look))
        look_rows(flow, shown);
    if (section(flow, "Place",
                number_text(glm::length(camera.position_m - camera.aim_m), 2) + " m away",
                open.place)) {
        point_rows(flow, "camera.position_m", camera.position_m, "from the subject");
        note(flow, "looks at", flow.colour().text3);
        point_rows(flow, "camera.aim_m", camera.aim_m, "from the subject");
        flow.skip(6);
    }
    hairline(flow);
}

} // namespace keystead::ui
