// The picture through the camera on neutral grey, its caption below it; and the room from outside.
#pragma once

#include "engine/render/display.h"
#include "engine/ui/drawn.h"
#include "engine/ui/outbox.h"
#include "engine/ui/point_placing.h"
#include "engine/ui/type.h"
#include "sim/review/review.h"

namespace keystead::ui {

/// A picture ready to be drawn.
struct PictureShown {
    unsigned texture = 0; ///< OpenGL name; 0: there is none yet
    int width = 0, height = 0;
    int samples = 0, target = 1;
    std::optional<double> noise_percent; ///< how far it is from what it will settle to
    Display display;                     ///< what it was developed with
    std::string trouble;                 ///< why there is none, if there never will be
};

/// Where the picture of that aspect goes inside the lens view: whole pixels.
/// `lines` of small type are kept free below the caption.
Rect picture_rect(const Rect& view, float aspect, const Theme& theme, int lines = 0);
/// Those lines' rectangle, as wide as the view's margins allow.
Rect lens_lines(const Rect& view, const Theme& theme, int lines);
float frame_aspect(const Camera& camera);

struct LensInput {
    const Set& set;
    const Review* review = nullptr;
    bool review_is_current = false; ///< older verdicts are shown dimmed
    PictureShown picture;
    const Studio* studio = nullptr; ///< what the picture shows; null until there is one
    PointPlacing placing;
    int lines = 0;    ///< kept free below the caption
    std::string lead; ///< first words of the caption: what else than the set as it is, is shown
};
void lens_view(Pen pen, const Rect& rect, const LensInput& in, Outbox& out);

/// A picture's texture, right way up.
void draw_picture(Pen pen, const Rect& rect, unsigned texture);

/// Where the room is looked at from.
struct Orbit {
    double azimuth_deg = 35.0, elevation_deg = 24.0, distance_m = 6.5;
    Vec3 centre_m{0.0, 1.2, 0.0};
    bool turning = false; ///< the pointer has hold of it
};
/// Where the room's picture goes inside its view, below the header.
Rect room_picture_rect(const Rect& view, const Theme& theme);
/// Drag turns, the wheel comes nearer.
void room_view(Pen pen, const Rect& rect, const PictureShown& picture, Orbit& orbit);

} // namespace keystead::ui
