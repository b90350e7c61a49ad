// Studios for the tests of the review: the slow part, the sitter, is built once.
#pragma once

#include "sim/base/frames.h"
#include "sim/review/review.h"
#include "sim/set/catalogue.h"
#include "sim/set/json_text.h"
#include "sim/set/set_io.h"
#include "sim/support/pose.h"

#include <algorithm>
#include <map>
#include <memory>
#include <sstream>
#include <stdexcept>
#include <string>

namespace bench {

using namespace keystead;

inline Set demo(const std::string& name) {
    const auto loaded = load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/" + name);
    if (!loaded) throw std::runtime_error(loaded.problem().message());
    return loaded.value().set;
}

/// The studio of a set; the sitter's form is taken from the last one where it is the same.
inline std::shared_ptr<const Studio> studio_of(const Set& set) {
    static std::map<std::uint64_t, std::shared_ptr<const Studio>> last;
    std::shared_ptr<const Studio>& studio = last[form_key(set.subject)];
    studio = make_studio(set, studio);
    return studio;
}

/// Light by way of walls and floor is left out: what is checked here has closed forms without it.
inline Review quick_review(const Set& set, ReviewMemory* memory = nullptr) {
    static std::map<std::uint64_t, ReviewMemory> shared;
    ReviewMemory& kept = memory != nullptr ? *memory : shared[form_key(set.subject)];
    return review_set(*studio_of(set), {.margins = false, .bounce = false}, &kept);
}

/// A tall room with one standing sitter who looks at the camera, and no light.
inline Set plain_set() {
    Set set;
    set.name = "plain";
    set.room.width_m = 8.0;
    set.room.depth_m = 10.0;
    set.room.ceiling_m = 4.0;
    set.room.left_of_subject_m = 4.0;
    set.room.behind_subject_m = 4.0;
    set.background.distance_m = 2.0;
    set.background.height_m = 3.0;
    set.subject = demo("harbour-choir-short.json").subject;
    set.subject.head_turn_deg = 0.0;
    set.subject.body_turn_deg = 0.0;
    set.camera.position_m = {0.0, 1.58, 2.4};
    set.camera.aim_m = {0.0, 1.52, 0.0};
    set.camera.orientation = Orientation::upright;
    return set;
}

/// A light whose emitting face has its centre at `centre_m` and looks at `target_m`; its stand is
/// right below it.
inline Light light_at(const std::string& id, const std::string& modifier, const Vec3& centre_m,
                      const Vec3& target_m, const std::string& support = "roller-33") {
    Light light;
    light.id = id;
    light.head = find_entry(catalogue().heads, "monolight-400")->value;
    light.modifier = find_entry(catalogue().modifiers, modifier)->value;
    light.support = find_entry(catalogue().supports, support)->value;
    light.support.arm.reset();
    const Vec3 beam = glm::normalize(target_m - centre_m);
    const Vec3 bracket = centre_m - face_ahead_m(light) * beam;
    light.support.base.position_m = {bracket.x, bracket.z};
    Column& column = light.support.column;
    column.height_m = bracket.y;
    column.min_height_m = std::min(column.min_height_m, bracket.y);
    column.max_height_m = std::max(column.max_height_m, bracket.y);
    light.support.base.hub_height_m = std::min(light.support.base.hub_height_m, 0.5 * bracket.y);
    light.aim.kind = AimKind::point;
    light.aim.point_m = target_m;
    return light;
}

inline const Finding* finding(const Review& review, const std::string& code,
                              const std::string& about = "") {
    for (const Finding& f : review.findings)
        if (f.code == code && (about.empty() || f.about == about)) return &f;
    return nullptr;
}

/// The set after the edits of a finding's first remedy.
inline Set mended(const Set& set, const Finding& finding) {
    Json document = parse_json(write_set(set)).value();
    for (const Edit& edit : finding.mend.edits) {
        Json* at = &document;
        std::string path = edit.path;
        const bool appends = path.ends_with("[]");
        for (char& c : path)
            if (c == '[' || c == ']') c = '.';
        std::istringstream steps(path);
        for (std::string step; std::getline(steps, step, '.');) {
            if (step.empty()) continue;
            if (!at->is_array()) {
                at = &at->at(step);
                continue;
            }
            const auto named = std::find_if(at->begin(), at->end(), [&](const Json& entry) {
                return entry.is_object() && entry.value("id", "") == step;
            });
            if (named != at->end()) {
                at = &*named;
                continue;
            }
            const auto index = static_cast<std::size_t>(std::stoul(step));
            if (index == at->size()) at->push_back(nullptr);
            at = &at->at(index);
        }
        if (appends) {
            at->push_back(nullptr);
            at = &at->back();
        }
        *at = parse_json(edit.value).value();
    }
    const auto changed = parse_set(document.dump());
    if (!changed) throw std::runtime_error(changed.problem().message());
    return changed.value().set;
}

inline const LightReview& light_of(const Review& review, const std::string& id) {
    for (const LightReview& light : review.lights)
        if (light.id == id) return light;
    throw std::runtime_error("no light " + id);
}

inline const SupportReview& support_of(const Review& review, const std::string& id) {
    for (const SupportReview& support : review.supports)
        if (support.id == id) return support;
    throw std::runtime_error("no support " + id);
}

/// Changes the power so that the light alone reads `f_number` at the face.
inline void make_read(Light& light, const LightReview& now, double f_number) {
    light.head.range_stops = 12.0;
    light.head.power_stops_below -= 2.0 * std::log2(f_number / *now.f_number);
}

} // namespace bench
