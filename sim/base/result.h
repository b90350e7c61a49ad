// Errors at the boundary are values: where, what was found, what is allowed.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>

namespace keystead {

/// One thing wrong with input from outside. `message()` is one line fit for a person.
struct Problem {
    std::string path;    ///< e.g. `lights[2].support.arm.reach_m`, or a file name
    std::string found;   ///< e.g. `9.0`
    std::string allowed; ///< e.g. `is above this arm's 1.2`, or what was expected instead

    /// `path: found allowed`, leaving out what is empty.
    std::string message() const {
        std::string text = path;
        if (!found.empty()) text += (text.empty() ? "" : ": ") + found;
        if (!allowed.empty()) text += (found.empty() ? ": " : " ") + allowed;
        return text;
    }
};

/// Either a value or the problem that prevented it.
template <class T>
class [[nodiscard]] Result {
public:
    Result(T value)
        : state_(std::move(value)) {} // NOLINT(google-explicit-constructor)
    Result(Problem problem)
        : state_(std::move(problem)) {} // NOLINT(google-explicit-constructor)

    bool ok() const { return std::holds_alternative<T>(state_); }
    explicit operator bool() const { return ok(); }
    const T& value() const& { return std::get<T>(state_); }
    T&& value() && { return std::get<T>(std::move(state_)); }
    const Problem& problem() const { return std::get<Problem>(state_); }

private:
    std::variant<T, Problem> state_;
};

/// Success without a value, or the problem.
using Outcome = std::optional<Problem>;

} // namespace keystead
