#include "sim/portrait/decide.h"
#include "sim/portrait/read.h"
#include "sim/portrait/thresholds.h"

#include <cmath>
#include <optional>
#include <utility>

namespace keystead {

struct LightOnFace {
    FaceLight light;                ///< for an exitance of 1
    std::vector<double> nose_share; ///< blurred
    double front_level = 0.0;       ///< mean over the front of the face
    PatternReading alone;
};

namespace {

namespace limit = pattern_threshold;

/// One light of several, with its strength on a scale common to all.
struct Party {
    const FaceLight& light;
    const std::vector<double>& nose_share; ///< blurred
    double strength = 0.0;                 ///< of its plate at the nose root
    double on_front = 0.0;                 ///< strength times mean level over the front of the face
};

/// The nose's shadow of one light where it shows through the others.
struct NoseShadow {
    double area_mm2 = 0.0;
    double dip = 0.0;       ///< mean share of the total that is missing
    double middle_mm = 0.0; ///< + subject's left
};

/// Half the front of the face: the window that says who lights it.
bool in_face(const ChartGrid& grid, std::size_t cell) {
    constexpr double half_angle_deg = 50.0;
    return grid.covered[cell] != 0 && grid.region[cell] != Region::hair &&
           std::abs(grid.column_angle_deg[static_cast<std::size_t>(grid.column_of(cell))]) <
               half_angle_deg;
}

double mean_front_level(const ChartGrid& grid, const FaceLight& light) {
    double area = 0.0, sum = 0.0;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (!in_face(grid, cell)) continue;
        area += grid.area_mm2[cell];
        sum += grid.area_mm2[cell] * light.level[cell];
    }
    return area > 0.0 ? sum / area : 0.0;
}

Party make_party(const LightOnFace& face, const Emitter& emitter, double shutter_s) {
    const double strength = face.light.plate_exposure * emitter.exitance * emitter.power *
                            (emitter.flash ? 1.0 : shutter_s);
    return {face.light, face.nose_share, strength, strength * face.front_level};
}

/// Places that two noses' shadows share are dark by both: they belong to neither side.
bool hidden_from_another(const std::vector<Party>& parties, std::size_t self, std::size_t cell) {
    for (std::size_t other = 0; other < parties.size(); ++other)
        if (other != self && parties[other].strength > 0.0 &&
            parties[other].nose_share[cell] > limit::crossed_share)
            return true;
    return false;
}

double others_level(const std::vector<Party>& parties, std::size_t self, std::size_t cell) {
    double sum = 0.0;
    for (std::size_t other = 0; other < parties.size(); ++other)
        if (other != self) sum += parties[other].strength * parties[other].light.level[cell];
    return sum;
}

NoseShadow visible_nose_shadow(const ChartGrid& grid, const std::vector<Party>& parties,
                               std::size_t self, double key_strength) {
    const Party& party = parties[self];
    NoseShadow shadow;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0 || grid.region[cell] == Region::nose ||
            party.nose_share[cell] <= limit::crossed_share ||
            hidden_from_another(parties, self, cell))
            continue;
        const double missing = party.strength * party.light.open_level[cell];
        const double total = missing + others_level(parties, self, cell);
        if (total <= limit::crossed_level * key_strength || missing <= limit::crossed_dip * total)
            continue;
        shadow.area_mm2 += grid.area_mm2[cell];
        shadow.dip += grid.area_mm2[cell] * missing / total;
        shadow.middle_mm += grid.area_mm2[cell] * grid.place_mm[cell].x;
    }
    if (shadow.area_mm2 > 0.0) {
        shadow.dip /= shadow.area_mm2;
        shadow.middle_mm /= shadow.area_mm2;
    }
    return shadow;
}

bool are_crossed(const NoseShadow& a, const NoseShadow& b) {
    return a.area_mm2 > limit::crossed_mm2 && b.area_mm2 > limit::crossed_mm2 &&
           a.middle_mm * b.middle_mm < 0.0 &&
           std::abs(a.middle_mm - b.middle_mm) > limit::crossed_apart_mm;
}

/// Lights behind the head only: then the strongest of those.
std::size_t strongest_on_front(const std::vector<Party>& parties) {
    const auto rank = [&](std::size_t i) {
        return std::pair(parties[i].on_front, parties[i].strength);
    };
    std::size_t best = 0;
    for (std::size_t i = 1; i < parties.size(); ++i)
        if (rank(i) > rank(best)) best = i;
    return best;
}

std::size_t largest_shadow(const std::vector<NoseShadow>& shadows, std::size_t fallback) {
    std::size_t best = fallback;
    for (std::size_t i = 0; i < shadows.size(); ++i)
        if (shadows[i].area_mm2 > shadows[best].area_mm2) best = i;
    return best;
}

std::string crossed_note(const Emitter& key, const NoseShadow& own, const Emitter& other,
                         const NoseShadow& its) {
    return "Two nose shadows fall to opposite sides: " + key.light + " makes one of " +
           number_text(own.area_mm2, 0) + " mm² where " + number_text(100.0 * own.dip, 0) +
           " % of the light is missing, " + other.light + " one of " +
           number_text(its.area_mm2, 0) + " mm² with " + number_text(100.0 * its.dip, 0) +
           " % missing (under " + number_text(100.0 * limit::crossed_dip, 0) + " % is ignored).";
}

Emitter unit_lamp(const FaceChart& chart, const Emitter& emitter, const FaceRoom& room) {
    Emitter lamp = in_head_frame(chart, emitter, room.head_axes, room.head_origin_m);
    lamp.power = lamp.exitance = 1.0;
    return lamp;
}

std::shared_ptr<const LightOnFace> read_traced(const FaceChart& chart, const Emitter& lamp,
                                               FaceLight light) {
    LightOnFace face;
    face.light = std::move(light);
    face.nose_share = blurred(chart.fine, face.light.nose_share, limit::blur_mm);
    face.front_level = mean_front_level(chart.fine, face.light);
    face.alone = read_face(chart, chart.fine, lamp, face.light);
    look_from_eyes(chart, lamp, face.alone);
    return std::make_shared<const LightOnFace>(std::move(face));
}

} // namespace

std::shared_ptr<const LightOnFace> read_light_on_face(const FaceChart& chart,
                                                      const Emitter& emitter, const Mat3& head_axes,
                                                      const Vec3& head_origin_m) {
    const Emitter lamp = unit_lamp(chart, emitter, {nullptr, head_axes, head_origin_m});
    return read_traced(chart, lamp, light_on_face(chart, chart.fine, lamp));
}

std::shared_ptr<const LightOnFace>
read_light_in_room(const FaceChart& chart, const Emitter& emitter, const FaceRoom& room,
                   const std::shared_ptr<const LightOnFace>& open) {
    const Emitter lamp = unit_lamp(chart, emitter, room);
    std::optional<FaceLight> shaded =
        shaded_by_room(chart, chart.fine, lamp, room, traced_light(*open));
    return shaded ? read_traced(chart, lamp, std::move(*shaded)) : open;
}

const FaceLight& traced_light(const LightOnFace& face) {
    return face.light;
}

CombinedPattern read_combined_pattern(const FaceChart& chart, const std::vector<Emitter>& emitters,
                                      const Mat3& head_axes, const Vec3& head_origin_m,
                                      double shutter_s) {
    std::vector<std::shared_ptr<const LightOnFace>> faces;
    for (const Emitter& emitter : emitters)
        faces.push_back(read_light_on_face(chart, emitter, head_axes, head_origin_m));
    return combine_lights(chart, emitters, faces, shutter_s);
}

CombinedPattern combine_lights(const FaceChart& chart, const std::vector<Emitter>& emitters,
                               const std::vector<std::shared_ptr<const LightOnFace>>& faces,
                               double shutter_s) {
    CombinedPattern result;
    std::vector<Party> parties;
    for (std::size_t i = 0; i < emitters.size(); ++i) {
        parties.push_back(make_party(*faces[i], emitters[i], shutter_s));
        result.alone.push_back(faces[i]->alone);
    }
    if (parties.empty()) return result;
    const std::size_t strongest = strongest_on_front(parties);
    if (parties[strongest].strength <= 0.0) {
        result.note = "No light reaches the face.";
        return result;
    }
    std::vector<NoseShadow> shadows;
    for (std::size_t i = 0; i < parties.size(); ++i)
        shadows.push_back(visible_nose_shadow(chart.fine, parties, i, parties[strongest].strength));
    const std::size_t key = largest_shadow(shadows, strongest);
    result.key = static_cast<int>(key);
    result.pattern = result.alone[key].pattern;
    result.note = result.alone[key].note;
    for (std::size_t i = 0; i < shadows.size() && result.other < 0; ++i) {
        if (i == key || !are_crossed(shadows[key], shadows[i])) continue;
        result.other = static_cast<int>(i);
        result.pattern = Pattern::crossed;
        result.note = crossed_note(emitters[key], shadows[key], emitters[i], shadows[i]);
    }
    return result;
}

} // namespace keystead
