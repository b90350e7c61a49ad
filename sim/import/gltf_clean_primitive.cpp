#include "sim/import/gltf_clean.h"
#include "sim/import/gltf_extensions.h"

namespace keystead::importing::gltf {

using nlohmann::json;

namespace {

std::size_t accessor_count(const json& document) {
    const auto found = document.find("accessors");
    return found == document.end() || !found->is_array() ? 0 : found->size();
}

/// Does the accessor hold bytes of its own? One without a view is legal and means zeros.
bool has_view(const json& document, std::size_t accessor) {
    const json& item = document["accessors"][accessor];
    return item.is_object() && (item.contains("bufferView") || item.contains("sparse"));
}

/// A compression whose uncompressed copy is missing leaves only zeros: say so instead.
void refuse_compressed(FieldCheck& check, const json& document, const json& primitive,
                       std::size_t position, const std::string& place) {
    const auto extensions = primitive.find("extensions");
    if (extensions == primitive.end() || !extensions->is_object()) return;
    const std::string draco = "KHR_draco_mesh_compression";
    if (extensions->contains(draco) && !has_view(document, position))
        check.fail(check.blame().problem(
            place, "it needs " + extension_in_words(draco) + ", which is not supported",
            extension_remedy(draco)));
}

void copy_attributes(FieldCheck& check, json& clean, const json& document, const json& attributes,
                     const std::string& place) {
    for (const char* key : {"POSITION", "NORMAL", "COLOR_0", "JOINTS_0", "WEIGHTS_0"})
        if (const auto i = check.index(attributes, key, place + ".attributes",
                                       accessor_count(document), false))
            clean["attributes"][key] = *i;
}

bool is_triangles(std::size_t mode) {
    return mode >= 4;
}

void add_once(std::vector<std::string>& notes, const std::string& note) {
    for (const std::string& there : notes)
        if (there == note) return;
    notes.push_back(note);
}

void note_left_out(const json& primitive, const json& attributes, std::vector<std::string>& notes) {
    if (attributes.contains("JOINTS_1"))
        add_once(notes, "Only four joints a vertex are used; the others are left out.");
    if (primitive.contains("targets"))
        add_once(notes, "Morph targets are left out: the base shape is shown.");
}

} // namespace

json clean_primitive(FieldCheck& check, const json& document, const json& primitive,
                     const std::string& place, std::vector<std::string>& notes) {
    if (!primitive.is_object()) {
        check.damaged(place, "it is not an object");
        return nullptr;
    }
    const std::size_t mode = check.whole(primitive, "mode", place, 6, false).value_or(4);
    if (!is_triangles(mode)) {
        add_once(notes, "Points and lines are left out.");
        return nullptr;
    }
    const auto attributes = primitive.find("attributes");
    if (attributes == primitive.end() || !attributes->is_object()) {
        check.damaged(place + ".attributes", "it is missing");
        return nullptr;
    }
    json clean{{"mode", mode}, {"attributes", json::object()}};
    copy_attributes(check, clean, document, *attributes, place);
    if (!clean["attributes"].contains("POSITION")) {
        add_once(notes, "A part without positions is left out.");
        return nullptr;
    }
    const auto position = clean["attributes"]["POSITION"].get<std::size_t>();
    refuse_compressed(check, document, primitive, position, place);
    if (const auto i = check.index(primitive, "indices", place, accessor_count(document), false)) {
        clean["indices"] = *i;
        if (!document["accessors"][*i].is_object() ||
            !document["accessors"][*i].contains("bufferView"))
            check.damaged(place + ".indices", at("accessors", *i) + " has no bufferView");
    }
    const auto materials = document.find("materials");
    const std::size_t count =
        materials == document.end() || !materials->is_array() ? 0 : materials->size();
    if (const auto i = check.index(primitive, "material", place, count, false))
        clean["material"] = *i;
    note_left_out(primitive, *attributes, notes);
    return clean;
}

} // namespace keystead::importing::gltf
