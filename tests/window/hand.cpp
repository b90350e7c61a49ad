#include "tests/window/hand.h"

#include "tests/window/child.h"
#include "tests/window/wait.h"

#include <cmath>

namespace keystead::journeys {

namespace {

using Words = std::vector<std::string>;

/// xdotool refuses what looks like an option, and there is nothing left of the screen's edge.
Words move(const ImVec2& p) {
    return {"mousemove", std::to_string(std::max(0L, std::lround(p.x))),
            std::to_string(std::max(0L, std::lround(p.y)))};
}

void append(Words& words, const Words& more) {
    words.insert(words.end(), more.begin(), more.end());
}

} // namespace

void Hand::tool(const Words& words) const {
    Words all{"xdotool"};
    append(all, words);
    ChildOptions options;
    options.environment["DISPLAY"] = screen_.name();
    const int status = Child(all, options).status_within(patience_s);
    if (status != 0) FAIL("xdotool " << words.front() << " ended with " << status);
}

void Hand::to(const ImVec2& p) const {
    tool(move(p));
}

void Hand::click(const ImVec2& p) const {
    Words words = move(p);
    append(words, {"sleep", "0.03", "mousedown", "1", "sleep", "0.03", "mouseup", "1"});
    tool(words);
}

void Hand::double_click(const ImVec2& p) const {
    Words words = move(p);
    append(words, {"sleep", "0.03", "click", "--repeat", "2", "--delay", "60", "1"});
    tool(words);
}

void Hand::drag(const ImVec2& from, const ImVec2& on, bool let_go) const {
    Words words = move(from);
    append(words, {"sleep", "0.03", "mousedown", "1"});
    constexpr int steps = 8;
    for (int i = 1; i <= steps; ++i) {
        const float part = static_cast<float>(i) / steps;
        append(words, {"sleep", "0.02"});
        append(words, move({from.x + part * (on.x - from.x), from.y + part * (on.y - from.y)}));
    }
    if (let_go) append(words, {"sleep", "0.03", "mouseup", "1"});
    tool(words);
}

void Hand::drag_along(const ImVec2& from, const std::vector<ImVec2>& path, double rest_s) const {
    Words words = move(from);
    append(words, {"sleep", "0.1", "mousedown", "1"});
    for (const ImVec2& p : path) {
        append(words, {"sleep", std::to_string(rest_s)});
        append(words, move(p));
    }
    append(words, {"sleep", "0.1", "mouseup", "1"});
    tool(words);
}

void Hand::let_go() const {
    tool({"mouseup", "1"});
}

void Hand::key(const char* name) const {
    tool({"key", name});
}

void Hand::type(const std::string& text) const {
    tool({"type", "--delay", "15", text});
}

} // namespace keystead::journeys
