#include "sim/import/glb.h"

#include <bit>
#include <cstring>

namespace keystead::importing {

namespace {

constexpr std::uint32_t magic = 0x46546C67;        // "glTF"
constexpr std::uint32_t json_chunk = 0x4E4F534A;   // "JSON"
constexpr std::uint32_t binary_chunk = 0x004E4942; // "BIN\0"
constexpr std::size_t header_bytes = 12, chunk_header_bytes = 8;

static_assert(std::endian::native == std::endian::little, "containers are little-endian");

std::uint32_t word_at(ByteView bytes, std::size_t at) {
    std::uint32_t word = 0;
    std::memcpy(&word, bytes.data() + at, sizeof word);
    return word;
}

Outcome check_header(ByteView file, const Blame& blame) {
    if (file.size() < header_bytes + chunk_header_bytes)
        return blame.damaged("header", "the file ends after " + byte_count(file.size()));
    const std::uint32_t version = word_at(file, 4);
    if (version != 2)
        return blame.problem("header", "container version " + std::to_string(version),
                             "export as glTF 2.0");
    const std::uint32_t length = word_at(file, 8);
    if (length > file.size())
        return blame.damaged("header", "it claims " + byte_count(length) + " but holds " +
                                           byte_count(file.size()));
    if (length < header_bytes + chunk_header_bytes)
        return blame.damaged("header", "it claims only " + byte_count(length));
    return std::nullopt;
}

} // namespace

bool is_glb(ByteView start) {
    return start.size() >= 4 && word_at(start, 0) == magic;
}

Result<GlbChunks> split_glb(ByteView file, const Blame& blame) {
    if (const Outcome bad = check_header(file, blame)) return *bad;
    file = file.first(word_at(file, 8)); // bytes after the declared end are not the container's
    GlbChunks chunks;
    std::size_t at = header_bytes, number = 0;
    while (file.size() - at >= chunk_header_bytes) {
        const std::uint64_t length = word_at(file, at);
        const std::uint32_t type = word_at(file, at + 4);
        at += chunk_header_bytes;
        const std::string place = "chunk " + std::to_string(number);
        if (length > file.size() - at)
            return blame.damaged(place, "it claims " + byte_count(length) + " but " +
                                            byte_count(file.size() - at) + " are left");
        const ByteView body = file.subspan(at, length);
        if (number == 0 && type != json_chunk)
            return blame.damaged(place, "the first chunk is not JSON");
        if (number == 0) chunks.json = {reinterpret_cast<const char*>(body.data()), body.size()};
        if (number == 1 && type == binary_chunk) chunks.binary = body;
        at += length;
        // Chunks start on multiples of four; some writers forget the padding of the last one.
        at += std::min<std::size_t>((4 - length % 4) % 4, file.size() - at);
        ++number;
    }
    return chunks;
}

} // namespace keystead::importing
