// Every number that a pattern's name hangs on. Levels are of a plate facing the lamp (1 = full
// key).
//
// The trade gives words and overlapping ranges of angles, not limits, so these are judgements of
// ours, chosen on generated heads where the trade's own examples agree; each says why it is here.
#pragma once

namespace keystead::pattern_threshold {

/// Lit: within two stops of a plate facing the lamp. Puts split about azimuth 68-102 and rim from
/// 125, nearest to the trade's "about 90" and "120-160".
inline constexpr double lit = 0.25;
/// Faintly lit, for "the far half is dark to the midline".
inline constexpr double faint = 0.10;
/// Forehead lit enough to say that the lamp is in front of it.
inline constexpr double forehead = 0.12;

// Shares of area.
inline constexpr double unlit_front = 0.15; ///< less of the front lit: rim or nothing
inline constexpr double rim_side = 0.15;    ///< one cheek edge lit at least so much
inline constexpr double split_far = 0.06;   ///< the far half may be lit no more than this
inline constexpr double split_near = 0.70;  ///< and the near half at least this much
inline constexpr double flat_front = 0.60;
inline constexpr double butterfly_balance = 0.50; ///< far half against near half
inline constexpr double loop_balance = 0.10;
inline constexpr double loop_chin_dark = 0.85;
inline constexpr double toplight_chin_dark = 0.60;
inline constexpr double toplight_forehead = 0.35;
inline constexpr double toplight_eye_seen = 0.50;
inline constexpr double toplight_balance = 0.20;
inline constexpr double toplight_dark_front = 0.10;

// Directions in the head frame (components of the unit vector to the lamp).
inline constexpr double toplight_up = 0.77; ///< steeper than 50 degrees
inline constexpr double toplight_forward = 0.10;
inline constexpr double underlight_down = -0.208; ///< 12 degrees below the face
inline constexpr double underlight_forward = 0.25;
inline constexpr double rim_behind = -0.10; ///< behind the line of the ears

// Sizes hold for a face with this nose, about a man's mean. On others lengths go with the nose's
// length, areas of the patch with its square.
inline constexpr double nose_length_mm = 50.0; ///< root to base, upright
inline constexpr double nose_depth_mm = 21.0;  ///< tip ahead of the base

// The nose's shadow.
/// Full key that the nose takes away. Goes with the cube of the nose's depth: only what falls past
/// the nose's own underside shows, and under a key 35 degrees up that is 18 mm² on the shallowest
/// of the presets (14 mm) and 204 on the deepest (26 mm), butterflies both.
inline constexpr double nose_lost_mm2 = 45.0;
inline constexpr double nose_core = 0.40;      ///< hidden share where the shadow is deepest
inline constexpr double tip_shift_mm = 6.0;    ///< a third of half the nose's breadth
inline constexpr double border_shift_mm = 1.0; ///< nearer than this to loop: say so
inline constexpr double tip_reach_mm = 25.0;   ///< farther below the nose counts no more

// The patch on the far cheek.
/// Ring at least so far under the patch: joined. Between what the trade calls loop and the triangle
/// on all six presets under a small lamp and one of 0.9 m at 1.3 m: the deepest ring at (30, 25)
/// and (25, 35) lies 1.3 stops under its patch, the shallowest at (50, 40) 1.9.
inline constexpr double joined_stops = 1.75;
inline constexpr double border_stops = 0.5; ///< nearer than this to joining: say so
inline constexpr double patch_level = 0.15; ///< brightest place of the patch at least this
inline constexpr double patch_mm2 = 120.0;
inline constexpr double patch_width = 1.4;  ///< of the eye's width
inline constexpr double patch_height = 1.2; ///< of the nose's length
inline constexpr double patch_wide = 1.06;  ///< wider than the eye: said, not refused

// Two lights.
/// Share of the light missing in the second shadow: what a lamp two stops under the other leaves
/// out where both fall alike. "Drop one by about two stops" is the trade's cure.
inline constexpr double crossed_dip = 0.20;
inline constexpr double crossed_share = 0.50; ///< hidden by the nose
inline constexpr double crossed_level = 0.15;
inline constexpr double crossed_mm2 = 70.0; ///< overlap not counted
inline constexpr double crossed_apart_mm = 10.0;

/// A third of a nose shadow's width, well under the narrowest pass between shadows.
inline constexpr double blur_mm = 1.5;

} // namespace keystead::pattern_threshold
