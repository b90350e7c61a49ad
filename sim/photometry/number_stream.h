// The numbers of a photometric file, wherever its lines wrap, with the line each stands on.
#pragma once

#include "sim/base/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace keystead::photometry {

/// Lines without their ends (CR, LF or both); a byte order mark and anything after Ctrl-Z dropped.
std::vector<std::string_view> lines_of(std::string_view text);
std::string_view trimmed(std::string_view text);
/// Printable beginning of a foreign text, for messages.
std::string shown(std::string_view text);

/// A finite decimal number with a point, whatever the machine's locale; nothing else.
std::optional<double> number_in(std::string_view word);

class NumberStream {
public:
    /// From line index `first` on (0 the first line of the file).
    NumberStream(std::vector<std::string_view> lines, std::size_t first, std::string file);

    /// The next number; `what` is what the format puts here.
    double real(const std::string& what);
    /// The next number, which must be whole and within the range.
    int whole(const std::string& what, int low, int high);
    std::vector<double> reals(const std::string& what, std::size_t count);
    /// How many words are left.
    std::size_t rest();

    /// The first thing wrong; everything read after it is zero.
    const Outcome& problem() const { return problem_; }
    /// Makes something already read the first thing wrong.
    void refuse(const std::string& found, const std::string& allowed);

private:
    std::optional<std::string_view> word();

    std::vector<std::string_view> lines_;
    std::size_t line_ = 0, column_ = 0;
    std::string file_;
    Outcome problem_;
};

} // namespace keystead::photometry
