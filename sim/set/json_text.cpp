#include "sim/set/json_text.h"

#include "sim/base/text.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace keystead {

namespace {

std::string line_and_column(std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto lines = std::count(before.begin(), before.end(), '\n');
    const std::size_t start = before.rfind('\n');
    const std::size_t column =
        start == std::string_view::npos ? before.size() : before.size() - start - 1;
    return "line " + std::to_string(lines + 1) + ", column " +
           std::to_string(std::max<std::size_t>(column, 1));
}

/// Receives the parser's events, builds the value and refuses what we do not take.
class Builder final : public nlohmann::json_sax<Json> {
public:
    explicit Builder(std::string_view text)
        : text_(text) {}

    bool null() override { return put(nullptr); }
    bool boolean(bool value) override { return put(value); }
    bool number_integer(number_integer_t value) override { return put(value); }
    bool number_unsigned(number_unsigned_t value) override { return put(value); }
    bool number_float(number_float_t value, const string_t& /*text*/) override {
        return put(value);
    }
    bool string(string_t& value) override { return put(value); }
    bool binary(binary_t& /*value*/) override { return false; }
    bool start_object(std::size_t /*size*/) override { return open(Json::object()); }
    bool start_array(std::size_t /*size*/) override { return open(Json::array()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(string_t& name) override {
        const Json& object = *open_.back();
        key_.clear(); // the field before this one is complete
        if (object.contains(name)) return refuse(path_to(name), "", "is given twice");
        if (object.size() >= json_max_members)
            return refuse(path(), "",
                          "has more than " + std::to_string(json_max_members) + " fields");
        key_ = name;
        return true;
    }

    bool parse_error(std::size_t position, const std::string& token,
                     const nlohmann::detail::exception& error) override {
        const std::string where = line_and_column(text_, position);
        const std::string reason = error.what();
        if (error.id == 406) return refuse(path(), token, "is not a finite number");
        if (reason.find("ill-formed UTF-8") != std::string::npos)
            return refuse(where, "", "the text is not UTF-8");
        if (text_.find_first_not_of(" \t\r\n") == std::string_view::npos)
            return refuse(where, "", "the text is empty, a JSON object is needed");
        if (reason.find("unexpected end of input") != std::string::npos || position > text_.size())
            return refuse(where, "", "the text ends too early: it is cut off");
        const std::string inside = path().empty() ? "" : " (in " + path() + ")";
        return refuse(where, "`" + token.substr(0, 40) + "`", "is not JSON" + inside);
    }

    Json root;
    Problem problem;

private:
    std::string path_to(const std::string& name) const {
        const std::string above = path();
        return above.empty() ? name : above + "." + name;
    }

    /// Path of what is being read now.
    std::string path() const {
        std::string text;
        for (std::size_t i = 0; i < open_.size(); ++i) {
            const bool last = i + 1 == open_.size();
            if (open_[i]->is_array()) {
                const std::size_t count = open_[i]->size();
                text += "[" + std::to_string(last || count == 0 ? count : count - 1) + "]";
            } else {
                const std::string& name = last ? key_ : names_[i + 1];
                if (!name.empty()) text += (text.empty() ? "" : ".") + name;
            }
        }
        return text;
    }

    bool refuse(const std::string& where, const std::string& found, const std::string& allowed) {
        problem = {one_line(where, 200), one_line(found, 60), one_line(allowed, 200)};
        return false;
    }

    template <class T>
    Json* add(T&& value) {
        if (open_.empty()) {
            root = std::forward<T>(value);
            return &root;
        }
        Json& parent = *open_.back();
        if (parent.is_array()) {
            parent.push_back(std::forward<T>(value));
            return &parent.back();
        }
        return &(parent[key_] = std::forward<T>(value));
    }

    template <class T>
    bool put(T&& value) {
        add(std::forward<T>(value));
        return true;
    }

    bool open(Json container) {
        if (open_.size() >= static_cast<std::size_t>(json_max_depth))
            return refuse(path(), "",
                          "is nested deeper than " + std::to_string(json_max_depth) + " levels");
        names_.push_back(open_.empty() || open_.back()->is_array() ? "" : key_);
        // Only the innermost container grows, so pointers to the outer ones stay valid.
        open_.push_back(add(std::move(container)));
        key_.clear();
        return true;
    }

    bool close() {
        open_.pop_back();
        key_ = names_.back();
        names_.pop_back();
        return true;
    }

    std::string_view text_;
    std::vector<Json*> open_;
    std::vector<std::string> names_; ///< under which key each open container stands
    std::string key_;
};

bool is_plain(const Json& value) {
    return !value.is_structured() || value.empty();
}

void print(const Json& value, int indent, std::string& out) {
    const std::string pad(static_cast<std::size_t>(indent) + 2, ' ');
    if (is_plain(value)) {
        out += value.dump();
    } else if (value.is_array() && std::all_of(value.begin(), value.end(), is_plain)) {
        out += '[';
        for (std::size_t i = 0; i < value.size(); ++i) out += (i ? ", " : "") + value[i].dump();
        out += ']';
    } else {
        const bool object = value.is_object();
        out += object ? "{" : "[";
        bool first = true;
        for (const auto& item : value.items()) {
            out += (first ? "\n" : ",\n") + pad;
            if (object) out += Json(item.key()).dump() + ": ";
            print(item.value(), indent + 2, out);
            first = false;
        }
        out += "\n" + pad.substr(2) + (object ? "}" : "]");
    }
}

} // namespace

Result<Json> parse_json(std::string_view text) {
    if (text.size() > json_max_bytes)
        return Problem{"", std::to_string(text.size() >> 20U) + " MiB", "is more than 16 MiB"};
    Builder builder(text);
    const bool ok = Json::sax_parse(text.begin(), text.end(), &builder);
    if (!ok) return builder.problem;
    return std::move(builder.root);
}

std::string print_json(const Json& value) {
    std::string text;
    print(value, 0, text);
    text += '\n';
    return text;
}

std::string json_line(const Json& value) {
    return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string brief_json(const Json& value, std::size_t limit) {
    if (value.is_object() && !value.empty()) return "{...}";
    std::string text = json_line(value);
    if (text.size() <= limit) return text;
    std::size_t cut = limit - 3;
    // Never cut a UTF-8 character in half.
    while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xC0U) == 0x80U) --cut;
    return text.substr(0, cut) + "...";
}

std::string number_text(double value) {
    if (std::isnan(value)) return "not a number";
    if (std::isinf(value)) return value > 0 ? "infinity" : "-infinity";
    return Json(value).dump();
}

} // namespace keystead
