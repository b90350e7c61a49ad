#include "tools/keystead/import_report.h"

#include "sim/set/field_rules.h"

#include <array>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <utility>

namespace keystead {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t offers_shown = 4;

template <class... Values>
std::string line(const char* format, Values... values) {
    std::array<char, 320> text{};
    std::snprintf(text.data(), text.size(), format, values...);
    return text.data();
}

std::array<std::pair<const char*, const std::optional<HeadPoint>*>, 5>
points_of(const HeadLandmarks& l) {
    return {{{"nose_tip", &l.nose_tip},
             {"pupil_left", &l.pupil_left},
             {"pupil_right", &l.pupil_right},
             {"chin", &l.chin},
             {"top", &l.top}}};
}

template <class V>
Json three(const V& v) {
    return Json::array({v.x, v.y, v.z});
}

Json landmarks_json(const ImportReport& report) {
    Json json{{"unit", short_name(report.unit)}, {"up", word_of(report.up)}};
    for (const auto& [name, point] : points_of(report.landmarks)) {
        json[name] = nullptr;
        if (*point)
            json[name] =
                Json{{"point_m", three((*point)->point_m)}, {"confidence", (*point)->confidence}};
    }
    json["facing_deg"] = nullptr;
    if (report.landmarks.facing_deg) json["facing_deg"] = *report.landmarks.facing_deg;
    json["remark"] = report.landmarks.remark;
    return json;
}

} // namespace

std::string import_text(const ImportReport& report) {
    const Mesh& mesh = report.imported.mesh;
    const glm::vec3 size = report.imported.bounds.size();
    std::string text = line("%s: %s, %zu triangles, %zu vertices\n", report.file.c_str(),
                            report.imported.format == MeshFormat::gltf ? "glTF" : "OBJ",
                            mesh.triangles.size(), mesh.positions_m.size());
    text +=
        line("Its box is %.4g x %.4g x %.4g of its own units (x, y, z).\n",
             static_cast<double>(size.x), static_cast<double>(size.y), static_cast<double>(size.z));
    text += report.guess.clear ? "Unit and up axis, the first far ahead of the rest:\n"
                               : "Unit and up axis, best first, none of them sure:\n";
    for (std::size_t i = 0; i < std::min(offers_shown, report.guess.offers.size()); ++i) {
        const UnitOffer& offer = report.guess.offers[i];
        text += line("  --unit %-2s --up %s  ", short_name(offer.unit), word_of(offer.up)) +
                offer.reason + "\n";
    }
    text += line("Looked for a face in %s with %s up%s: ", short_name(report.unit),
                 word_of(report.up), report.stated ? ", as stated" : ", the first of these") +
            report.landmarks.remark + "\n";
    for (const auto& [name, point] : points_of(report.landmarks))
        if (*point)
            text += line("  %-11s %7.3f %7.3f %7.3f m, %.0f %% sure\n", name, (*point)->point_m.x,
                         (*point)->point_m.y, (*point)->point_m.z, 100.0 * (*point)->confidence);
    if (report.landmarks.facing_deg)
        text += line("  it looks %.0f degrees from +Z toward +X\n", *report.landmarks.facing_deg);
    for (const std::string& note : report.imported.notes) text += "Note: " + note + "\n";
    return text;
}

std::string import_json(const ImportReport& report) {
    Json json{{"file", report.file},
              {"format", report.imported.format == MeshFormat::gltf ? "gltf" : "obj"},
              {"triangles", report.imported.mesh.triangles.size()},
              {"vertices", report.imported.mesh.positions_m.size()},
              {"bounds",
               {{"low", three(report.imported.bounds.low)},
                {"high", three(report.imported.bounds.high)}}},
              {"clear", report.guess.clear},
              {"offers", Json::array()},
              {"landmarks", landmarks_json(report)},
              {"notes", report.imported.notes}};
    for (const UnitOffer& offer : report.guess.offers)
        json["offers"].push_back(Json{{"unit", short_name(offer.unit)},
                                      {"up", word_of(offer.up)},
                                      {"part", word_of(offer.part)},
                                      {"height_m", offer.height_m},
                                      {"weight", offer.weight},
                                      {"reason", offer.reason}});
    // A file's name need not be UTF-8.
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace keystead
