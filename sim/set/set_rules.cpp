#include "sim/set/set_rules.h"

#include "sim/set/json_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace keystead {

namespace {

/// Collects the first broken rule, so that the rules read as a plain list.
class Rules {
public:
    explicit Rules(std::string path)
        : path_(std::move(path)) {}

    void below(const char* name, double value, double limit, const std::string& whose) {
        if (value < limit - 1e-9)
            add(name, number_text(value), "is below " + whose + number_text(printed(limit)));
    }
    void above(const char* name, double value, double limit, const std::string& whose) {
        if (value > limit + 1e-9)
            add(name, number_text(value), "is above " + whose + number_text(printed(limit)));
    }
    /// Differences of typed numbers carry rounding errors that nobody wants to read.
    static double printed(double value) { return std::round(value * 1e6) / 1e6; }
    void add(const std::string& name, std::string found, std::string allowed) {
        if (!first_) first_ = Problem{path_ + name, std::move(found), std::move(allowed)};
    }
    void add(const Outcome& outcome) {
        if (!first_) first_ = outcome;
    }
    Outcome first() const { return first_; }

private:
    std::string path_;
    Outcome first_;
};

void arm_rules(const Arm& arm, Rules& rules) {
    rules.above("arm.min_reach_m", arm.min_reach_m, arm.max_reach_m, "this arm's max_reach_m ");
    rules.above("arm.reach_m", arm.reach_m, arm.max_reach_m, "this arm's ");
    rules.below("arm.reach_m", arm.reach_m, arm.min_reach_m, "this arm's ");
    rules.above("arm.reach_m", arm.reach_m, arm.length_m, "this arm's whole length ");
    rules.above("arm.min_rise_deg", arm.min_rise_deg, arm.max_rise_deg, "this arm's max_rise_deg ");
    rules.above("arm.rise_deg", arm.rise_deg, arm.max_rise_deg, "this arm's ");
    rules.below("arm.rise_deg", arm.rise_deg, arm.min_rise_deg, "this arm's ");
    if (arm.counterweight)
        rules.above("arm.counterweight.place_m", arm.counterweight->place_m, arm.tail_m(),
                    "this arm's tail of ");
}

void bag_rules(const Support& support, std::size_t index, Rules& rules) {
    const Bag& bag = support.bags[index];
    const std::string name = "bags[" + std::to_string(index) + "].";
    if (bag.place == BagPlace::leg && bag.leg >= support.base.legs)
        rules.add(name + "leg", std::to_string(bag.leg),
                  "is not one of this base's legs 0 to " + std::to_string(support.base.legs - 1));
    if (bag.place == BagPlace::leg)
        rules.above((name + "at_m").c_str(), bag.at_m, support.base.foot_radius_m,
                    "this base's foot radius ");
    if (bag.place == BagPlace::tail && !support.arm)
        rules.add(name + "place", "\"tail\"", "needs an arm");
    if (bag.place == BagPlace::tail && support.arm)
        rules.above((name + "at_m").c_str(), bag.at_m, support.arm->tail_m(),
                    "this arm's tail of ");
}

void id_rules(const std::string& id, const std::string& path, std::set<std::string>& seen,
              Rules& rules) {
    const auto odd = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == '[' || c == ']' || c == '"' ||
               c == '\\';
    };
    if (id.empty()) rules.add(path, "\"\"", "needs at least one character");
    if (std::any_of(id.begin(), id.end(), odd))
        rules.add(path, brief_json(id), "may not contain brackets, quotes or control characters");
    if (std::find(reserved_ids.begin(), reserved_ids.end(), id) != reserved_ids.end())
        rules.add(path, brief_json(id), "is a word the review uses; choose another");
    if (!seen.insert(id).second)
        rules.add(path, brief_json(id), "is already the id of another part of the set");
}

void path_rules(const std::string& file, const std::string& path, Rules& rules) {
    if (file.empty()) rules.add(path, "\"\"", "needs a file's name");
}

} // namespace

Outcome support_rules(const Support& support, const std::string& path) {
    Rules rules(path + ".");
    const Column& column = support.column;
    rules.above("column.min_height_m", column.min_height_m, column.max_height_m,
                "this column's max_height_m ");
    rules.above("column.height_m", column.height_m, column.max_height_m, "this column's ");
    rules.below("column.height_m", column.height_m, column.min_height_m, "this column's ");
    rules.above("base.hub_height_m", support.base.hub_height_m, column.height_m,
                "the column's height ");
    if (support.arm) arm_rules(*support.arm, rules);
    for (std::size_t i = 0; i < support.bags.size(); ++i) bag_rules(support, i, rules);
    return rules.first();
}

Outcome modifier_rules(const Modifier& modifier, const std::string& path) {
    Rules rules(path + ".");
    if (modifier.shape == ModifierShape::ring && modifier.inner_width_m >= modifier.width_m)
        rules.add("inner_width_m", number_text(modifier.inner_width_m),
                  "is not below the ring's width " + number_text(modifier.width_m));
    if (modifier.deflector_width_m > 0.0)
        rules.above("deflector_width_m", modifier.deflector_width_m, 0.95 * modifier.width_m,
                    "95 % of the modifier's width ");
    if (modifier.photometric) path_rules(modifier.photometric->path, "photometric.path", rules);
    if (modifier.shape == ModifierShape::umbrella)
        rules.above("depth_m", modifier.depth_m, modifier.width_m / 2.0,
                    "half the umbrella's width ");
    return rules.first();
}

Outcome head_rules(const Head& head, const std::string& path) {
    Rules rules(path + ".");
    rules.above("power_stops_below", head.power_stops_below, head.range_stops,
                "this head's range ");
    return rules.first();
}

Outcome cross_field_rules(const Set& set) {
    Rules rules("");
    rules.above("room.left_of_subject_m", set.room.left_of_subject_m, set.room.width_m,
                "the room's width ");
    rules.above("room.behind_subject_m", set.room.behind_subject_m, set.room.depth_m,
                "the room's depth ");
    if (glm::length(set.camera.aim_m - set.camera.position_m) < 0.05)
        rules.add("camera.aim_m", "", "is at the camera's own position");
    rules.above("camera.sensor_height_mm", set.camera.sensor_height_mm, set.camera.sensor_width_mm,
                "the long side ");
    rules.above("limits.unstable_tilt_deg", set.limits.unstable_tilt_deg,
                set.limits.caution_tilt_deg, "caution_tilt_deg ");
    std::set<std::string> seen;
    for (std::size_t i = 0; i < set.lights.size(); ++i) {
        const Light& light = set.lights[i];
        const std::string path = "lights[" + std::to_string(i) + "]";
        id_rules(light.id, path + ".id", seen, rules);
        rules.add(head_rules(light.head, path + ".head"));
        rules.add(modifier_rules(light.modifier, path + ".modifier"));
        rules.add(support_rules(light.support, path + ".support"));
    }
    for (std::size_t i = 0; i < set.panels.size(); ++i) {
        const std::string path = "panels[" + std::to_string(i) + "]";
        id_rules(set.panels[i].id, path + ".id", seen, rules);
        if (set.panels[i].support)
            rules.add(support_rules(*set.panels[i].support, path + ".support"));
    }
    if (set.subject.file) path_rules(set.subject.file->path, "subject.file.path", rules);
    for (std::size_t i = 0; i < set.props.size(); ++i) {
        const std::string path = "props[" + std::to_string(i) + "]";
        id_rules(set.props[i].id, path + ".id", seen, rules);
        path_rules(set.props[i].path, path + ".path", rules);
    }
    for (std::size_t i = 0; i < set.meter_points.size(); ++i)
        id_rules(set.meter_points[i].id, "meter_points[" + std::to_string(i) + "].id", seen, rules);
    return rules.first();
}

} // namespace keystead
