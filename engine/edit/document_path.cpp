#include "engine/edit/document_path.h"

#include "sim/base/text.h"

#include <algorithm>
#include <charconv>

namespace keystead {

namespace {

/// Index of the entry with that id, else of that number; -1 for neither.
long entry_index(const Json& list, const std::string& key) {
    for (std::size_t i = 0; i < list.size(); ++i)
        if (id_of(list[i]) == key && list[i].is_object()) return static_cast<long>(i);
    long number = -1;
    const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), number);
    const bool whole = error == std::errc() && end == key.data() + key.size();
    return whole && number >= 0 ? number : -1;
}

/// Walks to the place and writes there.
class Walk {
public:
    Walk(Json& document, const Json& value)
        : at_(&document)
        , value_(value) {}

    Outcome step(const PathStep& step, bool last) {
        if (!at_->is_object())
            return Problem{path_, "",
                           at_->is_null() ? "is not there to be changed" : "has no fields"};
        path_ += (path_.empty() ? "" : ".") + step.field;
        const bool whole = last && step.brackets.empty();
        const auto found = at_->find(step.field);
        if (found == at_->end() && !(whole && may_be_left_out(owner_, step.field)))
            return Problem{path_, "", "is not a field of the set"};
        if (whole) {
            (*at_)[step.field] = value_;
            return {};
        }
        owner_ = step.field;
        at_ = &*found;
        for (std::size_t i = 0; i < step.brackets.size(); ++i)
            if (Outcome problem = enter(step.brackets[i], last && i + 1 == step.brackets.size()))
                return problem;
        return {};
    }

private:
    Outcome enter(const std::string& key, bool last) {
        if (!at_->is_array()) return Problem{path_, "", "is not a list"};
        const auto size = static_cast<long>(at_->size());
        const long index = key.empty() ? size : entry_index(*at_, key);
        path_ += "[" + key + "]";
        if (index < 0 || index > size || (index == size && !last))
            return Problem{path_, "", "is not in the set"};
        if (last) {
            put_entry(static_cast<std::size_t>(index));
            return {};
        }
        at_ = &(*at_)[static_cast<std::size_t>(index)];
        return {};
    }

    void put_entry(std::size_t index) {
        if (index == at_->size()) {
            if (!value_.is_null()) at_->push_back(value_);
        } else if (value_.is_null()) {
            at_->erase(index);
        } else {
            (*at_)[index] = value_;
        }
    }

    Json* at_;
    const Json& value_;
    std::string path_, owner_;
};

} // namespace

Result<std::vector<PathStep>> parse_path(std::string_view path) {
    const std::string said = one_line(path, 200);
    const Problem wrong{said.empty() ? "path" : said, said.empty() ? "\"\"" : "",
                        "is not a path like lights[key].support.base.turn_deg"};
    std::vector<PathStep> steps;
    std::size_t at = 0;
    while (at < path.size()) {
        PathStep step;
        const std::size_t end = std::min(path.find_first_of(".[", at), path.size());
        step.field = path.substr(at, end - at);
        at = end;
        while (at < path.size() && path[at] == '[') {
            const std::size_t close = path.find(']', at);
            if (close == std::string_view::npos) return wrong;
            step.brackets.emplace_back(path.substr(at + 1, close - at - 1));
            at = close + 1;
        }
        if (step.field.empty() || (at < path.size() && path[at] != '.')) return wrong;
        steps.push_back(std::move(step));
        if (at < path.size() && ++at == path.size()) return wrong;
    }
    if (steps.empty() || said != path) return wrong; // no field or id breaks a line
    return steps;
}

Outcome put_value(Json& document, const std::string& path, const Json& value) {
    const auto steps = parse_path(path);
    if (!steps) return steps.problem();
    Walk walk(document, value);
    for (std::size_t i = 0; i < steps.value().size(); ++i)
        if (Outcome problem = walk.step(steps.value()[i], i + 1 == steps.value().size()))
            return problem;
    return {};
}

std::string id_of(const Json& entry) {
    if (!entry.is_object()) return {};
    const auto id = entry.find("id");
    return id != entry.end() && id->is_string() ? id->get<std::string>() : std::string();
}

std::string with_ids(const std::string& path, const Json& document) {
    for (const char* list : {"lights", "panels", "props", "meter_points"}) {
        const std::string start = std::string(list) + "[";
        if (path.rfind(start, 0) != 0) continue;
        const std::size_t close = path.find(']');
        const long index =
            entry_index(Json::array(), path.substr(start.size(), close - start.size()));
        const Json& entries = document[list];
        if (index < 0 || index >= static_cast<long>(entries.size())) return path;
        const std::string id = id_of(entries[static_cast<std::size_t>(index)]);
        // A refused id may be one that no path can hold.
        const bool says =
            !id.empty() && id.find_first_of("[]") == std::string::npos && one_line(id, 64) == id;
        return !says ? path : start + id + path.substr(close);
    }
    return path;
}

} // namespace keystead
