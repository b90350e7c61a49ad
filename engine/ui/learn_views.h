// Where Learn comes into the frame: over the lens picture, and in place of the elevation.
#pragma once

#include "engine/ui/app.h"
#include "engine/ui/close_up.h"

namespace keystead::ui {

/// Lines of small type that Learn needs below the lens picture's caption; none while it is off.
/// As many whatever they say, so that the picture keeps its size.
int learn_lines(const App& app, const Theme& theme, const Rect& lens);
/// What the lens picture shows: all of it, or close to the face while Learn is on.
CloseUp lens_part(const App& app);

/// Outlines and words over the picture and sentences below it, if Learn is on and there is
/// something to say.
void learn_over_lens(Pen pen, App& app, const Rect& lens);

/// The chart is shown where the elevation would be.
bool chart_shown(const App& app);
void chart_view(Pen pen, App& app, const Rect& rect, Outbox& out);
/// The way back from the elevation to the chart, in its header: the hit area goes in before the
/// view, the words after it.
Hit chart_tab(Pen pen, const App& app, const Rect& elevation, Outbox& out);
void draw_chart_tab(Pen pen, const App& app, const Rect& elevation, const Hit& hit);

} // namespace keystead::ui
