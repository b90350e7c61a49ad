// Reads fields of a JSON object that may hold anything. The first thing wrong is kept, so that a
// long list of fields reads as a list and the caller asks once at the end.
#pragma once

#include "sim/import/blame.h"

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace keystead::importing {

class FieldCheck {
public:
    explicit FieldCheck(const Blame& blame)
        : blame_(blame) {}

    /// The first problem, if any.
    const Outcome& problem() const { return problem_; }
    bool failed() const { return problem_.has_value(); }
    void fail(Problem problem) {
        if (!problem_) problem_ = std::move(problem);
    }
    void damaged(const std::string& place, const std::string& found) {
        fail(blame_.damaged(place, found));
    }
    const Blame& blame() const { return blame_; }

    /// A whole number 0..`most`; absent: nothing, or a problem if `required`.
    std::optional<std::size_t> whole(const nlohmann::json& object, const char* key,
                                     const std::string& place, std::size_t most, bool required);
    /// An index into an array of `count`.
    std::optional<std::size_t> index(const nlohmann::json& object, const char* key,
                                     const std::string& place, std::size_t count, bool required);
    /// A list of indices into an array of `count`; absent: empty.
    std::vector<std::size_t> indices(const nlohmann::json& object, const char* key,
                                     const std::string& place, std::size_t count);
    /// Exactly `count` numbers, finite in single precision; absent: empty.
    std::vector<double> numbers(const nlohmann::json& object, const char* key,
                                const std::string& place, std::size_t count);
    /// A list of objects at the root; absent: empty.
    const nlohmann::json& objects(const nlohmann::json& root, const char* key);

private:
    const Blame& blame_;
    Outcome problem_;
};

/// `accessors[3]`.
inline std::string at(const char* list, std::size_t i) {
    return std::string(list) + "[" + std::to_string(i) + "]";
}

} // namespace keystead::importing
