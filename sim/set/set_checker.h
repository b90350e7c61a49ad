// The archive that holds every number of a listed struct against its range.
#pragma once

#include "sim/base/result.h"
#include "sim/set/fields.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

class Checker {
public:
    template <Listed T>
    static Outcome first_problem(const T& value, const std::string& path = "") {
        Checker checker(path);
        FieldList<T>::list(checker, value);
        return checker.problem_;
    }

    void header() {}
    void extras(const Extras& /*extras*/) {}

    template <class T>
    void field(const char* name, const T& value, const Rule& rule, const char* /*about*/) {
        if (!problem_) check(path_.empty() ? name : path_ + "." + name, name, value, rule);
    }

private:
    explicit Checker(std::string path)
        : path_(std::move(path)) {}

    void check(const std::string& path, const char* name, double value, const Rule& rule);
    void check(const std::string& path, const char* name, const std::string& value,
               const Rule& rule);
    void check(const std::string& path, const char* name, const Reflectance& value, const Rule&);
    void check(const std::string&, const char*, bool, const Rule&) {}

    void check(const std::string& path, const char* name, int value, const Rule& rule);
    template <class E>
    requires std::is_enum_v<E>
    void check(const std::string&, const char*, E, const Rule&) {}
    template <int N>
    void check(const std::string& path, const char* name, const glm::vec<N, double>& value,
               const Rule& rule) {
        for (int i = 0; i < N && !problem_; ++i)
            check(path + "[" + std::to_string(i) + "]", name, value[i], rule);
    }
    template <class T>
    void check(const std::string& path, const char* name, const std::optional<T>& value,
               const Rule& rule) {
        if (value) check(path, name, *value, rule);
    }
    template <Listed T>
    void check(const std::string& path, const char* /*name*/, const T& value, const Rule&) {
        problem_ = first_problem(value, path);
    }
    template <class T>
    void check(const std::string& path, const char* name, const std::vector<T>& values,
               const Rule& rule) {
        if (values.size() > rule.count) {
            problem_ = Problem{path, std::to_string(values.size()) + " entries",
                               "are more than " + std::to_string(rule.count)};
            return;
        }
        for (std::size_t i = 0; i < values.size() && !problem_; ++i)
            check(path + "[" + std::to_string(i) + "]", name, values[i], {});
    }

    std::string path_;
    Outcome problem_;
};

} // namespace keystead
