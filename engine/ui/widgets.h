// The window's own controls. Only hit areas and text entry are ImGui's; everything seen is drawn
// here.
#pragma once

#include "engine/ui/outbox.h"
#include "engine/ui/quantity.h"
#include "engine/ui/type.h"

#include <functional>
#include <span>
#include <string>

namespace keystead::ui {

/// What the number fields remember from frame to frame: at most one is edited or dragged.
struct RowMemory {
    ImGuiID editing = 0; ///< the field being typed in
    char text[1024] = {}; ///< the longest text of a row: a set's name, 200 characters of 4 bytes
    int age = 0;            ///< frames since typing began
    bool open_next = false; ///< Tab: the next field drawn takes over
    ImGuiID held = 0;       ///< the field the pointer went down on
    float start_x = 0.0F;
    double start_value = 0.0;
    bool moved = false;     ///< it has become a drag
    bool cancelled = false; ///< Escape during the drag: ignore the pointer until it is let go
    std::string asked_menu; ///< a choice whose list is open
};

/// Where a panel's next row goes, and what it may use.
struct Flow {
    Pen pen;
    RowMemory& rows;
    Outbox& out;
    float left = 0.0F, right = 0.0F; ///< content edges, framebuffer pixels
    float y = 0.0F;                  ///< top of the next row
    bool compact = false;
    const Set* set = nullptr; ///< for what the catalogue says of a row's field; may be null

    float px(float logical) const { return pen.px(logical); }
    const Palette& colour() const { return pen.colour(); }
    float row_height() const { return px(compact ? 24.0F : 26.0F); }
    void skip(float logical) { y += px(logical); }
};

struct NumberRow {
    std::string label;
    std::string id; ///< unique in the panel; usually the document path
    double value = 0.0;
    QuantityRule rule;
    double per_px = 0.01;    ///< change by one logical pixel of drag; Shift makes it a tenth
    std::string limit_words; ///< "this column's limit"; shown when a drag is pushed back
};
/// Draws the row; `command` makes the command for a new value.
void number_row(Flow& flow, const NumberRow& row, const std::function<Command(double)>& command);
/// The same for a plain document field.
void number_row(Flow& flow, const NumberRow& row);

/// label · leader · words; a click opens a field for other ones. Returns them once they are meant.
std::optional<std::string> words_row(Flow& flow, const std::string& label, const std::string& id,
                                     const std::string& words);

/// label · leader · words; a click opens the list. Returns the index picked, or -1.
int choice_row(Flow& flow, const std::string& label, const std::string& id,
               const std::string& value, std::span<const std::string> options);
/// label · leader · word that flips on a click.
bool toggle_row(Flow& flow, const std::string& label, const std::string& id, bool on,
                const char* on_word, const char* off_word);
/// Words only.
void text_row(Flow& flow, const std::string& label, const std::string& value);
/// Wrapped small print.
void note(Flow& flow, const std::string& text, ImU32 colour, const ImFont* font = nullptr,
          float indent = 0.0F);
void hairline(Flow& flow);

/// Section head with a chevron and, when closed, a summary at the right. Returns whether it is
/// open.
bool section(Flow& flow, const std::string& name, const std::string& summary, bool& open);

enum class ButtonKind { plain, accent, quiet };
bool button(Pen pen, const std::string& id, const Rect& rect, const std::string& words,
            ButtonKind kind);
float button_width(Pen pen, const std::string& words);
/// Clickable words without a frame, for "add a bag", "remove".
bool link(Flow& flow, const std::string& id, const std::string& words, float x);
float link_right(Pen pen, const std::string& id, const std::string& words, float right, float cy,
                 bool& clicked);
/// Inside an open list: Escape closes it.
void close_on_escape();

/// A hit area: hovered, held, clicked.
struct Hit {
    bool hovered = false, held = false, clicked = false;
};
Hit hit_area(const std::string& id, const Rect& rect);

} // namespace keystead::ui
