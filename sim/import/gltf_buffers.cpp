#include "sim/import/gltf_buffers.h"

#include "sim/import/gltf_extensions.h"
#include "sim/import/uri.h"

namespace keystead::importing::gltf {

using nlohmann::json;

namespace {

Result<Bytes> fetch_uri(const std::string& uri, const std::filesystem::path& folder,
                        std::uint64_t bytes_left, const Blame& blame, const std::string& place) {
    if (is_data_uri(uri)) {
        std::optional<Bytes> bytes = decode_data_uri(uri);
        if (!bytes) return blame.damaged(place, "its data is not base64");
        return std::move(*bytes);
    }
    const Result<std::filesystem::path> file = file_in_folder(uri, folder, blame, place);
    if (!file) return file.problem();
    return read_bytes(file.value(), bytes_left, blame, place);
}

/// A buffer with neither a name nor a container chunk: filled by a compression, or broken.
Problem without_bytes(const json& buffer, const Blame& blame, const std::string& place) {
    const auto extensions = buffer.find("extensions");
    if (extensions != buffer.end() && extensions->is_object())
        for (const char* name : {"EXT_meshopt_compression", "KHR_meshopt_compression"})
            if (extensions->contains(name))
                return blame.problem(place,
                                     "its bytes need " + extension_in_words(name) +
                                         ", which is not supported",
                                     extension_remedy(name));
    return blame.damaged(place, "it has no uri and the file has no binary chunk for it");
}

std::string text_of(const json& object, const char* key) {
    const auto found = object.find(key);
    return found != object.end() && found->is_string() ? found->get<std::string>() : "";
}

} // namespace

Result<Buffers> fetch_buffers(const json& document, std::optional<ByteView> binary,
                              const std::filesystem::path& folder, const ImportLimits& limits,
                              const Blame& blame) {
    FieldCheck check(blame);
    const json& list = check.objects(document, "buffers");
    if (check.failed()) return *check.problem();
    Buffers buffers;
    buffers.owned.resize(list.size());
    std::uint64_t bytes_left = limits.max_file_bytes;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string place = at("buffers", i);
        const std::optional<std::size_t> length =
            check.whole(list[i], "byteLength", place, limits.max_file_bytes, true);
        if (!length) return *check.problem();
        ByteView bytes;
        if (list[i].contains("uri")) {
            Result<Bytes> fetched =
                fetch_uri(text_of(list[i], "uri"), folder, bytes_left, blame, place + ".uri");
            if (!fetched) return fetched.problem();
            buffers.owned[i] = std::move(fetched).value();
            bytes = buffers.owned[i];
            bytes_left -= std::min<std::uint64_t>(bytes_left, bytes.size());
        } else if (i == 0 && binary) {
            bytes = *binary;
        } else {
            return without_bytes(list[i], blame, place);
        }
        if (*length > bytes.size())
            return blame.damaged(place, "it declares " + byte_count(*length) + " but holds " +
                                            byte_count(bytes.size()));
        buffers.bytes.push_back(bytes.first(*length));
    }
    return buffers;
}

void note_images(const json& document, const std::filesystem::path& folder, const Blame& blame,
                 std::vector<std::string>& notes) {
    const auto images = document.find("images");
    if (images == document.end() || !images->is_array() || images->empty()) return;
    notes.push_back("Images are not read (" + std::to_string(images->size()) +
                    " in the file): colours come from vertices and materials.");
    constexpr std::size_t most_named = 3;
    std::size_t refused = 0;
    for (std::size_t i = 0; i < images->size(); ++i) {
        const json& image = (*images)[i];
        if (!image.is_object()) continue;
        const std::string uri = text_of(image, "uri");
        if (uri.empty() || is_data_uri(uri)) continue;
        const Result<std::filesystem::path> file =
            file_in_folder(uri, folder, blame, at("images", i));
        if (!file && ++refused <= most_named)
            notes.push_back("Refused: " + file.problem().message() + ".");
    }
    if (refused > most_named)
        notes.push_back(std::to_string(refused - most_named) + " more images were refused.");
}

} // namespace keystead::importing::gltf
