#include "sim/import/text_lines.h"

#include <cstring>

namespace keystead::importing {

namespace {

constexpr std::size_t block_bytes = std::size_t{1} << 20U;
constexpr std::size_t longest_line = std::size_t{16} << 20U;

bool ends_joined(std::string_view& line) {
    if (line.empty() || line.back() != '\\') return false;
    line.remove_suffix(1);
    return true;
}

} // namespace

TextLines::TextLines(const std::filesystem::path& file, const Blame& blame)
    : stream_(file, std::ios::binary)
    , blame_(blame)
    , block_(block_bytes) {
    refill();
    const std::string_view start(block_.data(), end_);
    if (start.find('\n') == std::string_view::npos && start.find('\r') != std::string_view::npos)
        line_end_ = '\r';
    if (start.starts_with("\xEF\xBB\xBF")) begin_ = 3;
}

bool TextLines::refill() {
    std::memmove(block_.data(), block_.data() + begin_, end_ - begin_);
    end_ -= begin_;
    begin_ = 0;
    if (end_ == block_.size()) block_.resize(2 * block_.size());
    stream_.read(block_.data() + end_, static_cast<std::streamsize>(block_.size() - end_));
    const auto got = static_cast<std::size_t>(stream_.gcount());
    if (got > 0 && std::memchr(block_.data() + end_, 0, got) != nullptr)
        problem_ = blame_.problem("", "it is not text (it holds zero bytes)",
                                  "choose an OBJ file saved as UTF-8 text");
    bytes_read_ += got;
    end_ += got;
    return got > 0;
}

std::optional<std::string_view> TextLines::physical() {
    std::size_t searched = 0;
    for (;;) {
        if (problem_) return std::nullopt;
        const char* from = block_.data() + begin_;
        const void* stop = std::memchr(from + searched, line_end_, end_ - begin_ - searched);
        if (stop != nullptr) {
            std::string_view line(from,
                                  static_cast<std::size_t>(static_cast<const char*>(stop) - from));
            begin_ += line.size() + 1;
            ++physical_;
            if (line.ends_with('\r')) line.remove_suffix(1);
            return line;
        }
        searched = end_ - begin_;
        if (searched > longest_line) {
            problem_ = blame_.damaged("line " + std::to_string(physical_ + 1),
                                      "it is longer than " + byte_count(longest_line));
            return std::nullopt;
        }
        if (refill()) continue;
        if (searched == 0) return std::nullopt;
        const std::string_view last(block_.data() + begin_, searched);
        begin_ = end_;
        ++physical_;
        return last;
    }
}

std::optional<std::string_view> TextLines::next() {
    std::optional<std::string_view> line = physical();
    number_ = physical_;
    if (!line || !ends_joined(*line)) return line;
    joined_.assign(*line);
    for (;;) {
        line = physical();
        if (!line) break; // a backslash at the end of the file joins nothing
        const bool more = ends_joined(*line);
        joined_ += ' ';
        joined_ += *line;
        if (joined_.size() > longest_line) {
            problem_ = blame_.damaged("line " + std::to_string(number_),
                                      "it is longer than " + byte_count(longest_line));
            return std::nullopt;
        }
        if (!more) break;
    }
    if (problem_) return std::nullopt;
    return joined_;
}

} // namespace keystead::importing
