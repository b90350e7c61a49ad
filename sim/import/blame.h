// Words of a refused file: one line with file, place, finding and remedy.
#pragma once

#include "sim/base/result.h"
#include "sim/import/import.h"

#include <string>
#include <string_view>

namespace keystead::importing {

/// Text from a file made fit for one line of a message: control characters and broken UTF-8
/// replaced, long text shortened, in quotes.
std::string in_quotes(std::string_view text);

/// Bytes as a person reads them: `36 bytes`, `1.4 GB`.
std::string byte_count(std::uint64_t bytes);

/// Names one file in problems.
class Blame {
public:
    explicit Blame(const std::filesystem::path& file);

    /// `file, place: found; remedy`. An empty place is left out.
    Problem problem(std::string_view place, std::string_view found, std::string_view remedy) const;
    /// The remedy of a file that contradicts itself: export it again.
    Problem damaged(std::string_view place, std::string_view found) const;
    /// The user said stop.
    Problem stopped() const;

    const std::string& file_name() const { return name_; }

private:
    std::string name_;
};

/// Calls the user's progress function, if there is one. True: go on.
inline bool go_on(const ImportProgress& progress, double share, std::string_view doing) {
    return !progress || progress(share, doing);
}

} // namespace keystead::importing
