// One panel at the top of a wide enough column, worked with pointer and keyboard.
#pragma once

#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "tests/engine/ui/desk.h"

#include <catch2/catch.hpp>
#include <functional>
#include <vector>

namespace keystead::ui::testing {

inline Set changed(const Set& set, const Command& command) {
    const Result<Set> result = keystead::apply(set, command);
    INFO((result ? std::string() : result.problem().message()));
    REQUIRE(result);
    return result.value();
}

struct Bench {
    Table table{400.0F, 1600.0F};
    RowMemory rows;
    OpenSections open;
    std::vector<Edit> edits;
    float bottom = 0.0F; ///< of what the last frame drew

    void frame(const std::function<void(Flow&)>& body) {
        Outbox out;
        table.frame([&] {
            Flow flow{
                {ImGui::GetWindowDrawList(), &table.theme}, rows, out, 40.0F, 380.0F, 0.0F, false};
            body(flow);
            bottom = flow.y;
        });
        edits.insert(edits.end(), out.edits.begin(), out.edits.end());
    }
    void click(float x, float y, const std::function<void(Flow&)>& body) {
        table.point(x, y);
        for (int i = 0; i < 2; ++i) frame(body);
        table.button(true);
        for (int i = 0; i < 2; ++i) frame(body);
        table.button(false);
        for (int i = 0; i < 3; ++i) frame(body);
    }
};

} // namespace keystead::ui::testing
