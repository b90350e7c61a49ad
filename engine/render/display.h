// How linear radiance becomes a picture, or a reading of one. Nothing here changes measured light.
#pragma once

#include "sim/set/set.h"

#include <glm/glm.hpp>
#include <string>

namespace keystead {

enum class ShownAs {
    picture,
    stops, ///< a map: how many stops each place is from the face
};

struct Display {
    double exposure = 1.0;       ///< linear factor that maps radiance so that 0.18 is mid grey
    bool soft_shoulder = true;   ///< hue-keeping; off = clip
    bool dither = true;
    glm::mat3 balance{1.0F}; ///< linear sRGB as rendered to the camera's white balance
    ShownAs shown_as = ShownAs::picture;
    bool clipping = false;   ///< stripes where the sensor is full, dots where nothing is left
    double face_tone = 0.18; ///< exposed luminance that the map calls 0 stops
    double full_tone = 1.5;  ///< exposed value of a channel at which the sensor is full
    int mark_px = 8;         ///< period of stripes and dots
    double print_contrast = 0.0; ///< a look: the power that darkens what lies under mid grey

    friend bool operator==(const Display&, const Display&) = default;
};

/// Print contrast as pictures are shown with where it is wanted; judged by eye.
inline constexpr double usual_print_contrast = 0.12;

/// The factor that exposes this camera so that an 18 % card under light metered (flat) at the
/// camera's own settings comes out at linear 0.18.
double display_exposure(const Camera& camera, const MeterSettings& meter);

/// What the camera shows of rendered light: its exposure, white balance and shoulder; the sensor is
/// full where ISO 12232 says (half a stop above a metered white, see sim/light/sensor.h).
Display camera_display(const Camera& camera, const MeterSettings& meter);

/// The tone of skin of luminous `reflectance` in light `stops_off` from what the camera is set for.
double tone_of_face(double reflectance, double stops_off);

/// Bounds of the map: bands of one stop about `0`, the outermost open.
inline constexpr int lowest_band = -6, highest_band = 4;
/// The band's colour as sRGB code values, as the shader paints it.
glm::u8vec3 band_colour(int band);
/// "face", "+1", "-6 and less".
std::string band_words(int band);

/// One line: where grey and the full sensor lie, for a caption.
std::string anchor_words(const Display& display);

} // namespace keystead
