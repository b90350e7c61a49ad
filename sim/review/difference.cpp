#include "sim/review/difference.h"

#include "sim/light/stops.h"
#include "sim/review/report_parts.h"
#include "sim/review/say.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace keystead {

namespace {

constexpr const char* nothing = "none";

/// How a number is written in the table.
struct Style {
    int decimals = 0;
    const char* unit = "";
};
constexpr Style metres{2, " m"}, degrees_of{0, "°"}, stops_of{1, " stops"}, to_one{1, ":1"},
    percent{0, " %"};

class Table {
public:
    void words(const std::string& what, const std::string& first, const std::string& second,
               bool always = false) {
        add({what, first, second, ""}, always);
    }

    void number(const std::string& what, std::optional<double> first, std::optional<double> second,
                const Style& style, bool always = false) {
        const auto written = [&](const std::optional<double>& value) {
            return value ? say::number(*value, style.decimals) + style.unit : std::string(nothing);
        };
        Difference line{what, written(first), written(second), ""};
        if (first && second && !line.same())
            line.change = say::signed_number(*second - *first, style.decimals) + style.unit;
        add(std::move(line), always);
    }

    /// A meter's reading; its change in stops.
    void reading(const std::string& what, std::optional<double> first, std::optional<double> second,
                 bool always = false) {
        const auto written = [](const std::optional<double>& f_number) {
            return f_number ? meter_notation(*f_number) : std::string(nothing);
        };
        Difference line{what, written(first), written(second), ""};
        if (first && second && !line.same())
            line.change =
                say::signed_number(stops_between_f_numbers(*first, *second), 1) + " stops";
        add(std::move(line), always);
    }

    std::vector<Difference> take() { return std::move(lines_); }

private:
    void add(Difference line, bool always) {
        if (always || !line.same()) lines_.push_back(std::move(line));
    }
    std::vector<Difference> lines_;
};

/// A painter's name is written large.
std::string pattern_word(Pattern pattern) {
    return pattern == Pattern::rembrandt ? "Rembrandt" : name_of(pattern);
}

template <class T, class Name>
const T* named(const std::vector<T>& list, const std::string& name, Name name_of) {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const T& one) { return name_of(one) == name; });
    return found != list.end() ? &*found : nullptr;
}

template <class T>
const T* by_id(const std::vector<T>& list, const std::string& id) {
    return named(list, id, [](const T& one) { return one.id; });
}

/// Ids of both lists, the first's order first.
template <class T>
std::vector<std::string> ids_of(const std::vector<T>& first, const std::vector<T>& second) {
    std::vector<std::string> ids;
    for (const std::vector<T>* list : {&first, &second})
        for (const T& one : *list)
            if (std::find(ids.begin(), ids.end(), one.id) == ids.end()) ids.push_back(one.id);
    return ids;
}

void compare_face(Table& table, const Reviewed& a, const Reviewed& b) {
    const PortraitReview &one = a.review.portrait, &other = b.review.portrait;
    table.words("Pattern", pattern_word(one.pattern), pattern_word(other.pattern), true);
    table.words("Side", name_of(one.side), name_of(other.side), true);
    table.words("Key", one.key, other.key);
    table.words("Pair of lights", one.pair.empty() ? nothing : one.pair,
                other.pair.empty() ? nothing : other.pair);
    table.number("Key, aside of the nose", one.face_angles.azimuth_deg,
                 other.face_angles.azimuth_deg, degrees_of);
    table.number("Key, above the nose", one.face_angles.elevation_deg,
                 other.face_angles.elevation_deg, degrees_of);
    table.number("Nose shadow's ring under the patch", one.ring_stops, other.ring_stops, stops_of);
    for (const EyeReview& eye : one.eyes) {
        const EyeReview* twin =
            named(other.eyes, eye.eye, [](const EyeReview& e) { return e.eye; });
        if (twin != nullptr)
            table.number("Key seen by the " + eye.eye + " eye", eye.light_visible_percent,
                         twin->light_visible_percent, percent);
    }
}

void compare_exposure(Table& table, const Reviewed& a, const Reviewed& b) {
    const ExposureReview &one = a.review.exposure, &other = b.review.exposure;
    table.number("Key to fill (K:F)", one.ratio_key_to_fill, other.ratio_key_to_fill, to_one, true);
    table.number("Lit to shadow side ((K+F):F)", one.ratio_lit_to_shadow, other.ratio_lit_to_shadow,
                 to_one, true);
    table.reading("Dome at the face", one.face_f_number, other.face_f_number);
    table.reading("Camera", one.camera_f_number, other.camera_f_number);
    table.number("Over what the camera is set for", one.stops_off, other.stops_off, stops_of);
    table.number("Came by way of walls and floor", 100.0 * one.bounce_share,
                 100.0 * other.bounce_share, percent);
}

void compare_light(Table& table, const std::string& id, const Reviewed& a, const Reviewed& b) {
    const Light *set_a = by_id(a.set.lights, id), *set_b = by_id(b.set.lights, id);
    if (set_a == nullptr || set_b == nullptr) {
        table.words(id, set_a != nullptr ? "there" : nothing, set_b != nullptr ? "there" : nothing);
        return;
    }
    const auto on = [](const Light* light) { return light->on ? "on" : "off"; };
    const std::string of = id + ": ";
    table.words(of + "switched", on(set_a), on(set_b));
    const Base &base_a = set_a->support.base, &base_b = set_b->support.base;
    table.number(of + "base, camera right of the sitter", base_a.position_m.x, base_b.position_m.x,
                 metres);
    table.number(of + "base, toward the camera", base_a.position_m.y, base_b.position_m.y, metres);
    table.number(of + "power below full", set_a->head.power_stops_below,
                 set_b->head.power_stops_below, stops_of);
    const LightReview *one = by_id(a.review.lights, id), *other = by_id(b.review.lights, id);
    if (one == nullptr || other == nullptr) return;
    table.number(of + "height of its face", one->position_m.y, other->position_m.y, metres);
    table.number(of + "from the face", one->distance_to_face_m, other->distance_to_face_m, metres);
    table.reading(of + "reads alone", one->f_number, other->f_number);
    table.words(of + "pattern alone", pattern_word(one->pattern_if_alone),
                pattern_word(other->pattern_if_alone));
}

void compare_support(Table& table, const std::string& id, const Reviewed& a, const Reviewed& b) {
    const SupportReview *one = by_id(a.review.supports, id), *other = by_id(b.review.supports, id);
    if (one == nullptr || other == nullptr) return;
    table.words(id + ": stands", word_of(one->stability.verdict),
                word_of(other->stability.verdict));
}

void compare_picture(Table& table, const Reviewed& a, const Reviewed& b) {
    for (const SeparationReview& place : a.review.separation) {
        const SeparationReview* twin = named(b.review.separation, place.place,
                                             [](const SeparationReview& s) { return s.place; });
        if (twin == nullptr) continue;
        std::string words = place.place;
        std::replace(words.begin(), words.end(), '_', ' ');
        table.words("Outline, " + words, place.verdict, twin->verdict);
    }
    table.number("Background from the key", a.review.background.stops_from_key,
                 b.review.background.stops_from_key, stops_of);
}

/// What a set says of the sitter and the camera.
void compare_stage(Table& table, const Reviewed& a, const Reviewed& b) {
    table.number("Head turned to camera right", a.set.subject.head_turn_deg,
                 b.set.subject.head_turn_deg, degrees_of);
    table.number("Chin up", a.set.subject.head_nod_deg, b.set.subject.head_nod_deg, degrees_of);
    table.number("Focal length", a.set.camera.focal_length_mm, b.set.camera.focal_length_mm,
                 {0, " mm"});
}

std::size_t shown_width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

} // namespace

std::vector<Difference> differences(const Reviewed& first, const Reviewed& second) {
    Table table;
    compare_face(table, first, second);
    compare_exposure(table, first, second);
    compare_stage(table, first, second);
    for (const std::string& id : ids_of(first.set.lights, second.set.lights)) {
        compare_light(table, id, first, second);
        compare_support(table, id, first, second);
    }
    compare_picture(table, first, second);
    return table.take();
}

std::string differences_text(const std::vector<Difference>& table, const std::string& first,
                             const std::string& second) {
    std::size_t what = 0, left = shown_width(first), right = shown_width(second);
    for (const Difference& line : table) {
        what = std::max(what, shown_width(line.what));
        left = std::max(left, shown_width(line.first));
        right = std::max(right, shown_width(line.second));
    }
    std::string text = padded("", what + 2) + padded(first, left + 2) + second + "\n";
    for (const Difference& line : table) {
        text += padded(line.what, what + 2) + padded(line.first, left + 2);
        text += line.change.empty() ? line.second : padded(line.second, right + 2) + line.change;
        text += "\n";
    }
    return text;
}

} // namespace keystead
