#include "sim/import/gltf_clean.h"

#include <algorithm>
#include <array>
#include <limits>

namespace keystead::importing::gltf {

using nlohmann::json;

namespace {

constexpr std::size_t any_size = std::size_t{1} << 53U;
constexpr std::size_t any_int = std::numeric_limits<std::int32_t>::max();

std::size_t count_of(const json& document, const char* list) {
    const auto found = document.find(list);
    return found == document.end() || !found->is_array() ? 0 : found->size();
}

/// §3.2: the major version must be 2; `minVersion` tells what a reader must know.
Outcome check_version(const json& document, const Blame& blame) {
    const auto asset = document.find("asset");
    if (asset == document.end() || !asset->is_object())
        return blame.damaged("asset", "it is missing, so this is no glTF file");
    for (const char* key : {"version", "minVersion"}) {
        const auto version = asset->find(key);
        if (version == asset->end()) continue;
        if (!version->is_string() || !version->get_ref<const std::string&>().starts_with("2."))
            return blame.problem(
                "asset." + std::string(key),
                "it is " + in_quotes(version->dump(-1, ' ', false, json::error_handler_t::replace)),
                "export as glTF 2.0");
    }
    if (!asset->contains("version")) return blame.damaged("asset.version", "it is missing");
    return std::nullopt;
}

void copy_whole(FieldCheck& check, json& into, const json& from, const char* key,
                const std::string& place, std::size_t most, bool required = false) {
    if (const auto number = check.whole(from, key, place, most, required)) into[key] = *number;
}

void copy_index(FieldCheck& check, json& into, const json& from, const char* key,
                const std::string& place, std::size_t count, bool required = false) {
    if (const auto number = check.index(from, key, place, count, required)) into[key] = *number;
}

json clean_view(FieldCheck& check, const json& document, const json& view,
                const std::string& place) {
    json clean = json::object();
    copy_index(check, clean, view, "buffer", place, count_of(document, "buffers"), true);
    copy_whole(check, clean, view, "byteOffset", place, any_size);
    copy_whole(check, clean, view, "byteLength", place, any_size, true);
    copy_whole(check, clean, view, "byteStride", place, any_size);
    // §5.11.4: 4..252 in steps of four.
    const std::size_t stride = clean.value("byteStride", std::size_t{4});
    if (stride < 4 || stride > 252 || stride % 4 != 0)
        check.damaged(place + ".byteStride",
                      std::to_string(stride) + " is not a multiple of 4 from 4 to 252");
    return clean;
}

bool known_component(std::size_t type) {
    constexpr std::array<std::size_t, 6> known{5120, 5121, 5122, 5123, 5125, 5126};
    return std::find(known.begin(), known.end(), type) != known.end();
}

void copy_component(FieldCheck& check, json& into, const json& from, const std::string& place) {
    copy_whole(check, into, from, "componentType", place, any_size, true);
    if (!check.failed() && !known_component(into["componentType"].get<std::size_t>()))
        check.damaged(place + ".componentType",
                      into["componentType"].dump() + " is no component type");
}

json clean_sparse(FieldCheck& check, const json& document, const json& sparse,
                  const std::string& place) {
    json clean = json::object();
    if (!sparse.is_object()) {
        check.damaged(place, "it is not an object");
        return clean;
    }
    copy_whole(check, clean, sparse, "count", place, any_int, true);
    for (const char* part : {"indices", "values"}) {
        const auto found = sparse.find(part);
        if (found == sparse.end() || !found->is_object()) {
            check.damaged(place + "." + part, "it is missing");
            return clean;
        }
        json& into = clean[part] = json::object();
        const std::string inner = place + "." + part;
        copy_index(check, into, *found, "bufferView", inner, count_of(document, "bufferViews"),
                   true);
        copy_whole(check, into, *found, "byteOffset", inner, any_int);
    }
    copy_component(check, clean["indices"], sparse["indices"], place + ".indices");
    return clean;
}

json clean_accessor(FieldCheck& check, const json& document, const json& accessor,
                    const std::string& place) {
    constexpr std::array<std::string_view, 7> types{"SCALAR", "VEC2", "VEC3", "VEC4",
                                                    "MAT2",   "MAT3", "MAT4"};
    json clean = json::object();
    copy_index(check, clean, accessor, "bufferView", place, count_of(document, "bufferViews"));
    copy_whole(check, clean, accessor, "byteOffset", place, any_size);
    copy_whole(check, clean, accessor, "count", place, any_size, true);
    copy_component(check, clean, accessor, place);
    const auto type = accessor.find("type");
    if (type == accessor.end() || !type->is_string() ||
        std::find(types.begin(), types.end(), type->get_ref<const std::string&>()) == types.end())
        check.damaged(place + ".type", "it is not one of SCALAR to MAT4");
    else
        clean["type"] = *type;
    const auto normalised = accessor.find("normalized");
    if (normalised != accessor.end() && normalised->is_boolean()) clean["normalized"] = *normalised;
    const auto sparse = accessor.find("sparse");
    if (sparse != accessor.end())
        clean["sparse"] = clean_sparse(check, document, *sparse, place + ".sparse");
    return clean;
}

json clean_mesh(FieldCheck& check, const json& document, const json& mesh, const std::string& place,
                std::vector<std::string>& notes) {
    json clean{{"primitives", json::array()}};
    const auto primitives = mesh.find("primitives");
    if (primitives == mesh.end() || !primitives->is_array()) {
        check.damaged(place + ".primitives", "it is missing");
        return clean;
    }
    for (std::size_t i = 0; i < primitives->size() && !check.failed(); ++i) {
        const json one = clean_primitive(check, document, (*primitives)[i],
                                         place + "." + at("primitives", i), notes);
        if (!one.is_null()) clean["primitives"].push_back(one);
    }
    return clean;
}

json clean_node(FieldCheck& check, const json& document, const json& node,
                const std::string& place) {
    json clean = json::object();
    copy_index(check, clean, node, "mesh", place, count_of(document, "meshes"));
    copy_index(check, clean, node, "skin", place, count_of(document, "skins"));
    clean["children"] = check.indices(node, "children", place, count_of(document, "nodes"));
    for (const auto& [key, count] :
         {std::pair{"matrix", 16}, {"translation", 3}, {"rotation", 4}, {"scale", 3}})
        if (auto list = check.numbers(node, key, place, static_cast<std::size_t>(count));
            !list.empty())
            clean[key] = std::move(list);
    return clean;
}

json clean_skin(FieldCheck& check, const json& document, const json& skin,
                const std::string& place) {
    json clean = json::object();
    clean["joints"] = check.indices(skin, "joints", place, count_of(document, "nodes"));
    if (clean["joints"].empty()) check.damaged(place + ".joints", "it is empty");
    copy_index(check, clean, skin, "inverseBindMatrices", place, count_of(document, "accessors"));
    return clean;
}

/// Base colour only, and only where no image supplies it.
json clean_material(FieldCheck& check, const json& material, const std::string& place) {
    const auto surface = material.find("pbrMetallicRoughness");
    if (surface == material.end() || !surface->is_object() || surface->contains("baseColorTexture"))
        return json::object();
    const std::vector<double> colour =
        check.numbers(*surface, "baseColorFactor", place + ".pbrMetallicRoughness", 4);
    if (colour.empty()) return json::object();
    return {{"pbrMetallicRoughness", {{"baseColorFactor", colour}}}};
}

template <class Clean>
json clean_list(FieldCheck& check, const json& document, const char* key, const Clean& clean_one) {
    json clean = json::array();
    const json& list = check.objects(document, key);
    for (std::size_t i = 0; i < list.size() && !check.failed(); ++i)
        clean.push_back(clean_one(list[i], at(key, i)));
    return clean;
}

} // namespace

Result<json> clean_document(const json& document, const ImportLimits& limits, const Blame& blame,
                            std::vector<std::string>& notes) {
    if (const Outcome bad = check_version(document, blame)) return *bad;
    FieldCheck check(blame);
    if (count_of(document, "nodes") > limits.max_nodes)
        return blame.problem("nodes",
                             "it holds " + std::to_string(count_of(document, "nodes")) +
                                 ", the limit is " + std::to_string(limits.max_nodes),
                             "join the parts before exporting");
    json clean{{"asset", {{"version", "2.0"}}}};
    const auto list = [&](const char* key, const auto& one) {
        clean[key] = clean_list(check, document, key, one);
    };
    list("bufferViews", [&](const json& item, const std::string& place) {
        return clean_view(check, document, item, place);
    });
    list("accessors", [&](const json& item, const std::string& place) {
        return clean_accessor(check, document, item, place);
    });
    list("meshes", [&](const json& item, const std::string& place) {
        return clean_mesh(check, document, item, place, notes);
    });
    list("nodes", [&](const json& item, const std::string& place) {
        return clean_node(check, document, item, place);
    });
    list("skins", [&](const json& item, const std::string& place) {
        return clean_skin(check, document, item, place);
    });
    list("materials", [&](const json& item, const std::string& place) {
        return clean_material(check, item, place);
    });
    list("scenes", [&](const json& item, const std::string& place) {
        return json{{"nodes", check.indices(item, "nodes", place, count_of(document, "nodes"))}};
    });
    copy_index(check, clean, document, "scene", "document", count_of(document, "scenes"));
    if (check.failed()) return *check.problem();
    return clean;
}

} // namespace keystead::importing::gltf
