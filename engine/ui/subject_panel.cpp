#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "sim/set/field_rules.h"
#include "sim/subject/skin_scale.h"

#include <algorithm>

namespace keystead::ui {

namespace {

/// What the window says for the document's words, in their order.
using Words = std::vector<std::string>;
const Words postures{"standing", "seated"};
const Words hair_styles{"none", "cropped", "bob", "tied up", "long", "curly"};
const Words arm_poses{"hanging", "left hand on the hip", "right hand on the hip",
                      "both hands on the hips", "crossed"};
const Words gazes{"straight ahead", "at the camera", "by angles"};
const Words finishes{"matte", "satin"};

/// A row for a word of the document, shown as `shown` puts it.
template <class E>
void word_row(Flow& flow, const char* label, const char* path, E now, const Words& shown) {
    const int picked = choice_row(flow, label, path, shown[static_cast<std::size_t>(now)], shown);
    if (picked >= 0) flow.out.perform(set_word(path, word_of(static_cast<E>(picked))));
}

void angle_row(Flow& flow, const char* label, const char* path, double value, double limit) {
    number_row(flow, {label, path, value, {Dimension::angle, "°", -limit, limit, 0, {}}, 0.5, {}});
}

void length_row(Flow& flow, const char* label, const char* path, double value, double low_m,
                double high_m) {
    number_row(flow,
               {label, path, value, {Dimension::length, "m", low_m, high_m, 2, {}}, 0.005, {}});
}

void millimetre_row(Flow& flow, const char* label, const char* path, double value, double low_mm,
                    double high_mm) {
    number_row(flow,
               {label, path, value, {Dimension::length, "mm", low_mm, high_mm, 0, {}}, 0.5, {}});
}

void preset_row(Flow& flow, const std::string& preset) {
    Words shown;
    std::string now = preset;
    for (const char* word : preset_words) {
        shown.emplace_back(word);
        shown.back().replace(shown.back().find('-'), 1, " ");
        if (preset == word) now = shown.back();
    }
    constexpr const char* path = "subject.proportions.preset";
    const int picked = choice_row(flow, "proportions", path, now, shown);
    if (picked >= 0)
        flow.out.perform(set_word(path, preset_words[static_cast<std::size_t>(picked)]));
}

/// A row of the head's pose: with a light that moves along, or alone.
void head_row(Flow& flow, const char* label, const char* path, double value, double limit,
              HeadFollow* follow) {
    if (follow == nullptr || !follow->active()) return angle_row(flow, label, path, value, limit);
    number_row(flow, {label, path, value, {Dimension::angle, "°", -limit, limit, 0, {}}, 0.5, {}},
               [&](double wanted) { return head_command(*follow, path, wanted); });
}

void follow_row(Flow& flow, HeadFollow* follow) {
    if (follow == nullptr) return;
    // The row is there from the start, so that no row below jumps once the light is read.
    if (follow->light.empty()) return text_row(flow, "keep the pattern", "no key yet");
    const std::string on = follow->letter + " moves along";
    if (toggle_row(flow, "keep the pattern", "follow head", follow->on, on.c_str(), "no"))
        flow.out.wish(Act::follow_head);
    if (follow->on && !follow->stopped.empty())
        note(flow, follow->letter + " stops: " + follow->stopped + ".", flow.colour().caution);
}

void pose_section(Flow& flow, const Subject& s, OpenSections& open, HeadFollow* follow) {
    if (!section(flow, "Pose", {}, open.pose)) return;
    head_row(flow, "head turn", "subject.head_turn_deg", s.head_turn_deg, 180, follow);
    head_row(flow, "chin up", "subject.head_nod_deg", s.head_nod_deg, 60, follow);
    head_row(flow, "head lean", "subject.head_roll_deg", s.head_roll_deg, 60, follow);
    follow_row(flow, follow);
    angle_row(flow, "shoulders turn", "subject.body_turn_deg", s.body_turn_deg, 180);
    note(flow, "Turns and leans are toward camera right.", flow.colour().text3);
    flow.skip(4);
    word_row(flow, "eyes look", "subject.gaze.kind", s.gaze.kind, gazes);
    if (s.gaze.kind == GazeKind::angles) {
        angle_row(flow, "to camera right", "subject.gaze.azimuth_deg", s.gaze.azimuth_deg, 180);
        angle_row(flow, "upward", "subject.gaze.elevation_deg", s.gaze.elevation_deg, 90);
    }
    word_row(flow, "arms", "subject.arms", s.arms, arm_poses);
    word_row(flow, "posture", "subject.posture", s.posture, postures);
    preset_row(flow, s.proportions.preset);
    length_row(flow, "stature", "subject.stature_m", s.stature_m, 0.9, 2.3);
    if (s.posture == Posture::seated)
        length_row(flow, "seat height", "subject.seat_height_m", s.seat_height_m, 0.2, 1.1);
    flow.skip(6);
}

/// Along the scale from very dark to very light, with the colour that goes with each.
void skin_row(Flow& flow, const Reflectance& skin) {
    number_row(
        flow,
        {"skin reflects",
         "subject.skin",
         100.0 * skin.luminous(),
         {Dimension::plain, "%", 100.0 * least_skin_luminance, 100.0 * most_skin_luminance, 0, {}},
         0.2,
         "the scale's end"},
        [](double percent) {
            return set_point("subject.skin", skin_of_luminance(percent / 100.0));
        });
}

void oil_row(Flow& flow, double oil) {
    number_row(flow,
               {"skin oil",
                "subject.skin_oil",
                100.0 * oil,
                {Dimension::plain, "%", 0, 100, 0, {}},
                0.5,
                {}},
               [](double percent) { return set_number("subject.skin_oil", percent / 100.0); });
}

void looks_section(Flow& flow, const Subject& s, OpenSections& open) {
    const std::string hair = hair_styles[static_cast<std::size_t>(s.hair_style)] + " hair";
    if (!section(flow, "Hair, skin, cloth", s.grey_card ? "grey card" : hair, open.looks)) return;
    word_row(flow, "hair", "subject.hair_style", s.hair_style, hair_styles);
    if (!s.grey_card) {
        grey_row(flow, "hair reflects", "subject.hair", s.hair);
        skin_row(flow, s.skin);
        oil_row(flow, s.skin_oil);
        grey_row(flow, "iris reflects", "subject.iris", s.iris);
        grey_row(flow, "clothing reflects", "subject.clothing", s.clothing);
        word_row(flow, "clothing", "subject.clothing_finish", s.clothing_finish, finishes);
    }
    if (toggle_row(flow, "all a grey card", "subject.grey_card", s.grey_card, "18 %, matte", "no"))
        flow.out.perform(set_flag("subject.grey_card", !s.grey_card));
    flow.skip(6);
}

/// On: with the values an empty object stands for.
void worn_row(Flow& flow, const char* label, const char* path, bool worn) {
    if (toggle_row(flow, label, path, worn, "worn", "none"))
        flow.out.perform(worn ? set_nothing(path) : Command{SetValue{path, "{}"}});
}

void worn_section(Flow& flow, const Subject& s, OpenSections& open) {
    const char* summary = s.hat && s.glasses ? "both"
                          : s.hat            ? "hat"
                          : s.glasses        ? "glasses"
                                             : "none";
    if (!section(flow, "Hat, glasses", summary, open.worn)) return;
    worn_row(flow, "hat", "subject.hat", s.hat.has_value());
    if (s.hat) {
        millimetre_row(flow, "brim", "subject.hat.brim_mm", s.hat->brim_mm, 10, 300);
        millimetre_row(flow, "crown", "subject.hat.crown_mm", s.hat->crown_mm, 40, 300);
        number_row(flow, {"front lifts",
                          "subject.hat.tilt_deg",
                          s.hat->tilt_deg,
                          {Dimension::angle, "°", -30, 40, 0, {}},
                          0.3,
                          {}});
        grey_row(flow, "hat reflects", "subject.hat.reflectance", s.hat->reflectance);
    }
    worn_row(flow, "glasses", "subject.glasses", s.glasses.has_value());
    if (s.glasses) {
        number_row(flow, {"lenses lean",
                          "subject.glasses.tilt_deg",
                          s.glasses->tilt_deg,
                          {Dimension::angle, "°", -10, 30, 0, {}},
                          0.2,
                          {}});
        grey_row(flow, "frame reflects", "subject.glasses.frame", s.glasses->frame);
    }
    flow.skip(6);
}

} // namespace

void grey_row(Flow& flow, const std::string& label, const std::string& path,
              const Reflectance& reflectance) {
    number_row(flow,
               {label,
                path,
                100.0 * reflectance.luminous(),
                {Dimension::plain, "%", 0.1, 100, 1, {}},
                0.2,
                {}},
               [&](double percent) {
                   const double factor = percent / 100.0 / std::max(1e-4, reflectance.luminous());
                   return set_point(path, glm::min(reflectance.rgb * factor, Vec3(1.0)));
               });
}

void subject_panel(Flow& flow, const Set& set, OpenSections& open, HeadFollow* follow) {
    pose_section(flow, set.subject, open, follow);
    looks_section(flow, set.subject, open);
    worn_section(flow, set.subject, open);
    hairline(flow);
}

} // namespace keystead::ui
