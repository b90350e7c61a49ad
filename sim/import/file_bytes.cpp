#include "sim/import/file_bytes.h"

#include <fstream>

namespace keystead::importing {

namespace fs = std::filesystem;

Result<std::uint64_t> checked_size(const fs::path& file, std::uint64_t max_bytes,
                                   const Blame& blame, std::string_view place) {
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status))
        return blame.problem(place, "no such file: " + in_quotes(file.filename().string()),
                             "check the name, or put the file beside the one that needs it");
    if (fs::is_directory(status))
        return blame.problem(place, in_quotes(file.filename().string()) + " is a folder",
                             "choose a file in it");
    if (!fs::is_regular_file(status))
        return blame.problem(place,
                             in_quotes(file.filename().string()) + " is not an ordinary file",
                             "choose a .glb, .gltf or .obj file");
    const std::uint64_t size = fs::file_size(file, error);
    if (error) return blame.problem(place, "its size cannot be read", "check the disk");
    if (size == 0) return blame.problem(place, "the file is empty", "export it again");
    if (size > max_bytes)
        return blame.problem(
            place, "it holds " + byte_count(size) + ", the limit is " + byte_count(max_bytes),
            "reduce the mesh before exporting");
    return size;
}

Result<Bytes> read_bytes(const fs::path& file, std::uint64_t max_bytes, const Blame& blame,
                         std::string_view place) {
    const Result<std::uint64_t> size = checked_size(file, max_bytes, blame, place);
    if (!size) return size.problem();
    std::ifstream stream(file, std::ios::binary);
    Bytes bytes(size.value());
    if (stream)
        stream.read(reinterpret_cast<char*>(bytes.data()),
                    static_cast<std::streamsize>(bytes.size()));
    if (!stream || static_cast<std::uint64_t>(stream.gcount()) != size.value())
        return blame.problem(place, "the file cannot be read to its end",
                             "check its permissions and the disk");
    return bytes;
}

Bytes read_start(const fs::path& file, std::size_t count) {
    std::ifstream stream(file, std::ios::binary);
    Bytes bytes(count);
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(count));
    bytes.resize(static_cast<std::size_t>(stream.gcount()));
    return bytes;
}

} // namespace keystead::importing
