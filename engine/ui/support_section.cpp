#include "engine/ui/grips.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

template <class T>
std::vector<std::string> names_of(const std::vector<CatalogueEntry<T>>& entries) {
    std::vector<std::string> names;
    names.reserve(entries.size());
    for (const auto& entry : entries) names.push_back(entry.name);
    return names;
}

void kind_row(Flow& flow, const Light& light) {
    const auto& supports = catalogue().supports;
    const std::string now =
        light.support.from.empty() ? support_words(light.support) : entry_name(light.support.from);
    const int picked = choice_row(flow, "stand", "stand", now, names_of(supports));
    if (picked >= 0)
        flow.out.perform(change_support(light, supports[static_cast<std::size_t>(picked)]));
}

void arm_rows(Flow& flow, const Light& light) {
    const Arm& arm = *light.support.arm;
    number_row(flow, {"arm reach",
                      light_path(light.id, "support.arm.reach_m"),
                      arm.reach_m,
                      {Dimension::length, "m", arm.min_reach_m, most_reach_m(arm), 2, {}},
                      0.01,
                      whose_reach(arm)});
    number_row(flow, {"arm rise",
                      light_path(light.id, "support.arm.rise_deg"),
                      arm.rise_deg,
                      {Dimension::angle, "°", arm.min_rise_deg, arm.max_rise_deg, 0, {}},
                      0.5,
                      "this clamp's limit"});
    number_row(flow, {"arm turn",
                      light_path(light.id, "support.arm.turn_deg"),
                      arm.turn_deg,
                      {Dimension::angle, "°", -360, 360, 0, {}},
                      0.5,
                      {}});
}

void counterweight_rows(Flow& flow, const Light& light) {
    const Arm& arm = *light.support.arm;
    if (!arm.counterweight) {
        std::vector<std::string> options = names_of(catalogue().counterweights);
        const int picked = choice_row(flow, "counterweight", "counterweight", "none", options);
        if (picked < 0) return;
        Counterweight made = catalogue().counterweights[static_cast<std::size_t>(picked)].value;
        made.from = catalogue().counterweights[static_cast<std::size_t>(picked)].id;
        made.place_m = std::min(made.place_m, std::max(0.05, arm.tail_m() - 0.05));
        flow.out.perform(set_counterweight(light.id, made));
        return;
    }
    const std::string path = light_path(light.id, "support.arm.counterweight");
    number_row(flow, {"counterweight",
                      path + ".mass_kg",
                      arm.counterweight->mass_kg,
                      {Dimension::mass, "kg", 0, 100, 1, {}},
                      0.1,
                      {}});
    number_row(flow, {"its place",
                      path + ".place_m",
                      arm.counterweight->place_m,
                      {Dimension::length, "m", 0, std::max(0.01, arm.tail_m()), 2, {}},
                      0.01,
                      "the tail's end"});
    bool off = false;
    link_right(flow.pen, "no counterweight", "take it off", flow.right, flow.y + flow.px(9), off);
    flow.skip(20);
    if (off) flow.out.perform(set_nothing(path));
}

void placing_rows(Flow& flow, const Light& light) {
    const Base& base = light.support.base;
    const std::string path = light_path(light.id, "support.base.position_m");
    const auto place = [&](Vec2 at) { return set_place(path, at); };
    number_row(flow,
               {"camera right",
                path + "/x",
                base.position_m.x,
                {Dimension::length, "m", -60, 60, 2, {}},
                0.01,
                {}},
               [&](double x) {
                   return place({x, base.position_m.y});
               });
    number_row(flow,
               {"toward camera",
                path + "/z",
                base.position_m.y,
                {Dimension::length, "m", -60, 60, 2, {}},
                0.01,
                {}},
               [&](double z) {
                   return place({base.position_m.x, z});
               });
    number_row(flow, {"base turn",
                      light_path(light.id, "support.base.turn_deg"),
                      base.turn_deg,
                      {Dimension::angle, "°", -360, 360, 0, {}},
                      0.5,
                      {}});
}

std::vector<std::string> places_of(const Support& support) {
    std::vector<std::string> places;
    places.reserve(static_cast<std::size_t>(support.base.legs) + 2U);
    for (int leg = 0; leg < support.base.legs; ++leg)
        places.push_back("leg " + std::to_string(leg + 1));
    places.emplace_back("column");
    if (support.arm) places.emplace_back("tail of the arm");
    return places;
}

/// Where the choice `picked` hangs a bag.
Bag hung_at(Bag bag, int picked, const Support& support) {
    const int legs = support.base.legs;
    bag.place = picked < legs ? BagPlace::leg : picked == legs ? BagPlace::column : BagPlace::tail;
    if (bag.place == BagPlace::leg) bag.leg = picked;
    if (bag.place == BagPlace::leg) bag.at_m = 0.6 * support.base.foot_radius_m;
    if (bag.place == BagPlace::tail) bag.at_m = std::max(0.05, support.arm->tail_m() - 0.1);
    return bag;
}

std::string place_word(const Bag& bag) {
    if (bag.place == BagPlace::column) return "column";
    return bag.place == BagPlace::tail ? "tail of the arm" : "leg " + std::to_string(bag.leg + 1);
}

void bag_rows(Flow& flow, const Light& light, std::size_t i) {
    const auto changed = [&](const Bag& bag) {
        std::vector<Bag> bags = light.support.bags;
        bags[i] = bag;
        return set_bags(light.id, bags);
    };
    const Bag& bag = light.support.bags[i];
    const std::string name = light.support.bags.size() > 1 ? "bag " + std::to_string(i + 1) : "bag";
    const std::string id = "bag/" + std::to_string(i);
    number_row(flow,
               {name, id + "/mass", bag.mass_kg, {Dimension::mass, "kg", 0, 100, 1, {}}, 0.1, {}},
               [&](double mass) {
                   Bag made = bag;
                   made.mass_kg = mass;
                   return changed(made);
               });
    const int picked =
        choice_row(flow, "on", id + "/place", place_word(bag), places_of(light.support));
    if (picked >= 0) flow.out.perform(changed(hung_at(bag, picked, light.support)));
    const float cy = flow.y + flow.px(9);
    bool away = false, flipped = false;
    const float x = link_right(flow.pen, id + "/away", "take it off", flow.right, cy, away);
    link_right(flow.pen, id + "/hang", bag.hanging ? "lay it on the floor" : "hang it",
               x - flow.px(14), cy, flipped);
    text_at(flow.pen, flow.pen.theme->font.small, flow.left, cy,
            bag.hanging ? flow.colour().text2 : flow.colour().text,
            bag.hanging ? "hanging" : "on the floor: counts nothing");
    flow.skip(22);
    if (flipped) {
        Bag made = bag;
        made.hanging = !bag.hanging;
        flow.out.perform(changed(made));
    }
    if (!away) return;
    std::vector<Bag> bags = light.support.bags;
    bags.erase(bags.begin() + static_cast<std::ptrdiff_t>(i));
    flow.out.perform(set_bags(light.id, bags));
}

} // namespace

void support_section(Flow& flow, const Light& light, OpenSections& open, bool keeps_distance) {
    const Support& support = light.support;
    const std::string summary = "column " + number_text(support.column.height_m, 2) + " m";
    if (section(flow, "Support", summary, open.support)) {
        kind_row(flow, light);
        number_row(flow, {"column",
                          light_path(light.id, "support.column.height_m"),
                          support.column.height_m,
                          {Dimension::length,
                           "m",
                           support.column.min_height_m,
                           support.column.max_height_m,
                           2,
                           {}},
                          0.01,
                          "this column's limit"});
        if (support.arm) {
            arm_rows(flow, light);
            counterweight_rows(flow, light);
        }
        flow.skip(6);
    }
    const std::string where = number_text(support.base.position_m.x, 2) + " m, " +
                              number_text(support.base.position_m.y, 2);
    if (section(flow, "Place on the floor", where + " m", open.placing)) {
        placing_rows(flow, light);
        if (toggle_row(flow, "dragged over the plan", "keep distance", keeps_distance,
                       "keeps its distance", "goes anywhere"))
            flow.out.wish(Act::keep_distance);
        flow.skip(6);
    }
}

void bags_section(Flow& flow, const Light& light, const Stability& stability, OpenSections& open) {
    double mass = 0.0;
    for (const Bag& bag : light.support.bags) mass += bag.hanging ? bag.mass_kg : 0.0;
    const std::string summary =
        light.support.bags.empty() ? "none" : number_text(mass, 1) + " kg hanging";
    if (!section(flow, "Bags", summary, open.bags)) return;
    for (std::size_t i = 0; i < light.support.bags.size(); ++i) bag_rows(flow, light, i);
    const auto& bags = catalogue().bags;
    const int picked = choice_row(flow, light.support.bags.empty() ? "hang a bag" : "another bag",
                                  "add a bag", "choose", names_of(bags));
    if (picked >= 0) {
        Bag made = bags[static_cast<std::size_t>(picked)].value;
        made.from = bags[static_cast<std::size_t>(picked)].id;
        const int leg = std::max(0, stability.bag_there.leg);
        std::vector<Bag> all = light.support.bags;
        all.push_back(hung_at(made, leg, light.support));
        flow.out.perform(set_bags(light.id, all));
    }
    flow.skip(6);
}

} // namespace keystead::ui
