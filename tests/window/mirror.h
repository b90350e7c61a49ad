// The same window built without a screen: the map that says where to click in the real one, and
// what it ought to look like. It is kept in step by doing the same, or by loading what was saved.
#pragma once

#include "engine/gl/context.h"
#include "engine/render/renderer.h"
#include "engine/ui/grips.h"
#include "tests/engine/ui/window_bench.h"

#include <filesystem>
#include <memory>
#include <string>

namespace keystead::journeys {

class Mirror : public ui::testing::WindowBench {
public:
    Mirror(Set set, std::filesystem::path file, float width, float height);
    ~Mirror();

    /// Shows that set as if it had just been opened.
    void show(Set set, std::filesystem::path file);
    /// Until the studio, or the whole review too, belongs to the set as it is.
    void catch_up(bool review);
    /// As with the size of everything at that many percent.
    void set_size(int percent);

    /// A place in that view where a press takes hold of that part of that thing.
    ImVec2 grip(ui::Plane plane, ui::GripKind kind, const ui::Selection& what);
    /// The window's picture as it ought to be, but for the pictures in it.
    RgbaImage expected(const ui::Rect& part);

    const Set& set() const { return app.history.set(); }
    std::string text() const;
    bool any_danger() const;

private:
    std::shared_ptr<HeadlessContext> context_;
};

/// The share of pixels that differ by more than a shade.
double differing(const RgbaImage& a, const RgbaImage& b);
/// How many pixels are exactly of that colour.
std::size_t pixels_of(const RgbaImage& image, ImU32 colour);
/// Mean code value of all channels, 0 to 255.
double mean_level(const RgbaImage& image);

} // namespace keystead::journeys
