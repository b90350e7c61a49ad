// Saving the picture: the sheet that asks how, the caption under it and on the clipboard, and what
// is done about it.
#pragma once

#include "engine/render/filler.h"
#include "engine/ui/still_maker.h"
#include "engine/ui/type.h"
#include "sim/review/review.h"

#include <filesystem>
#include <optional>
#include <string>

namespace keystead::ui {

struct App;
struct Outbox;
struct Wish;
class PictureMaker;

struct PictureChoice {
    bool as_seen = false; ///< the window's own picture; else a converged one
    int width_px = 1920;  ///< of a converged one
    bool caption = true;  ///< a line of figures under it
};

/// The sheet, and what was chosen in it.
struct PictureFile {
    bool open = false;
    PictureChoice choice;
    char width[8] = "1920"; ///< as typed
    /// The picture on screen is to be written there, as soon as it can be read.
    std::optional<std::filesystem::path> seen_to;
    StillMaker maker;
};

inline constexpr int narrowest_picture_px = 64, widest_picture_px = 8192;
inline constexpr int still_samples = 128; ///< of a converged picture
/// The number typed; nothing where it is none or out of range.
std::optional<int> picture_width(const char* typed);
/// Height of the frame at that width, at least 1 and at most the widest.
int picture_height(const Camera& camera, int width_px);

/// "harbour choir: loop, short side, f/8 + 3/10, lit : shadow 3.2, holds −6° to +11°", then camera
/// and lights, one line each.
std::vector<std::string> caption_lines(const Set& set, const Review& review);
/// The caption's first lines in grey under a picture of that width.
RgbaImage caption_band(const std::vector<std::string>& lines, int width_px);

/// Over the middle of `area`.
void picture_sheet(Pen pen, const Rect& area, App& app, Outbox& out);
/// How far a picture in the background is, in the upper right corner of `view`.
/// The pointer's part comes before the view, true when it is to stop; then what is seen of it.
bool still_progress_pointer(Pen pen, const Rect& view, const StillProgress& progress);
void draw_still_progress(Pen pen, const Rect& view, const StillProgress& progress);

/// True if the wish was about saving pictures.
bool carry_out_picture_wish(App& app, const Wish& wish);
/// Says how a picture in the background ended. True if anything changed.
bool take_picture_results(App& app);
/// Writes what is seen, if that was asked for and a picture is there.
void write_seen_picture(App& app, const PictureMaker& pictures);

} // namespace keystead::ui
