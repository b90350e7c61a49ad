#include "engine/plate/plate_sitters.h"

#include "sim/subject/measures.h"
#include "sim/subject/skin_scale.h"

namespace keystead {

const std::array<Sitter, 4>& plate_sitters() {
    static constexpr std::array<Sitter, 4> sitters{{{"mean-male",
                                                     "mean male",
                                                     0.33,
                                                     {0.030, 0.019, 0.013},
                                                     {0.055, 0.062, 0.075},
                                                     HairStyle::cropped},
                                                    {"mean-female",
                                                     "mean female",
                                                     0.40,
                                                     {0.060, 0.034, 0.019},
                                                     {0.080, 0.050, 0.045},
                                                     HairStyle::tied},
                                                    {"small-female",
                                                     "small female",
                                                     0.24,
                                                     {0.018, 0.013, 0.011},
                                                     {0.050, 0.070, 0.062},
                                                     HairStyle::tied},
                                                    {"large-male",
                                                     "large male",
                                                     0.15,
                                                     {0.014, 0.012, 0.011},
                                                     {0.110, 0.105, 0.095},
                                                     HairStyle::cropped}}};
    return sitters;
}

Set sitter_set(const Sitter& sitter, HairStyle style) {
    Set set;
    set.name = "plate";
    set.room.width_m = 8.0;
    set.room.depth_m = 8.0;
    set.room.ceiling_m = 3.6;
    set.room.left_of_subject_m = 4.0;
    set.room.behind_subject_m = 3.2;
    set.room.walls.rgb = set.room.ceiling.rgb = Vec3(0.45);
    set.background.distance_m = 1.8;
    set.background.height_m = 3.0;
    set.background.reflectance.rgb = Vec3(0.26, 0.26, 0.27);
    Subject& subject = set.subject;
    subject.proportions.preset = sitter.preset;
    subject.stature_m = preset_stature_m(sitter.preset);
    subject.hair_style = style;
    subject.skin.rgb = skin_of_luminance(sitter.skin_luminance);
    subject.hair.rgb = sitter.hair;
    subject.clothing.rgb = sitter.clothing;
    set.camera.orientation = Orientation::upright;
    return set;
}

} // namespace keystead
