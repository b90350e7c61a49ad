#include "sim/import/gltf_extensions.h"

#include <algorithm>
#include <array>

namespace keystead::importing::gltf {

namespace {

struct Known {
    std::string_view name, words, remedy;
};

constexpr std::array<Known, 7> unsupported{{
    {"KHR_draco_mesh_compression", "Draco compression", "export without mesh compression"},
    {"EXT_meshopt_compression", "meshopt compression", "export without mesh compression"},
    {"KHR_meshopt_compression", "meshopt compression", "export without mesh compression"},
    {"KHR_texture_basisu", "KTX2 images", "export with PNG or JPEG images, or with none"},
    {"EXT_texture_webp", "WebP images", "export with PNG or JPEG images, or with none"},
    {"EXT_texture_avif", "AVIF images", "export with PNG or JPEG images, or with none"},
    {"EXT_mesh_gpu_instancing", "instances", "export with instances made real"},
}};

const Known* find_known(const std::string& name) {
    const auto found = std::find_if(unsupported.begin(), unsupported.end(),
                                    [&](const Known& known) { return known.name == name; });
    return found == unsupported.end() ? nullptr : &*found;
}

/// Extensions that leave the triangles as they are.
bool leaves_shape_alone(const std::string& name) {
    constexpr std::array<std::string_view, 5> exact{"KHR_lights_punctual", "KHR_texture_transform",
                                                    "KHR_xmp", "KHR_xmp_json_ld",
                                                    "KHR_materials_variants"};
    return name.starts_with("KHR_materials_") ||
           std::find(exact.begin(), exact.end(), name) != exact.end();
}

} // namespace

std::string extension_in_words(const std::string& name) {
    const Known* known = find_known(name);
    return known ? name + " (" + std::string(known->words) + ")" : in_quotes(name);
}

std::string extension_remedy(const std::string& name) {
    const Known* known = find_known(name);
    return known ? std::string(known->remedy) : "export without this extension";
}

Outcome check_extensions(const nlohmann::json& document, const Blame& blame,
                         std::vector<std::string>& notes) {
    const auto required = document.find("extensionsRequired");
    if (required == document.end()) return std::nullopt;
    if (!required->is_array()) return blame.damaged("extensionsRequired", "it is not a list");
    for (const nlohmann::json& item : *required) {
        if (!item.is_string()) return blame.damaged("extensionsRequired", "a name is not text");
        const auto& name = item.get_ref<const std::string&>();
        if (name == "KHR_mesh_quantization") continue;
        if (!leaves_shape_alone(name))
            return blame.problem("extensionsRequired",
                                 "it needs " + extension_in_words(name) +
                                     ", which is not supported",
                                 extension_remedy(name));
        notes.push_back("The extension " + in_quotes(name) +
                        " is left out; it does not change shape.");
    }
    return std::nullopt;
}

} // namespace keystead::importing::gltf
