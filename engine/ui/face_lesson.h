// What Learn writes on the picture: where one light's shadows end on the face, and what throws
// them, as the camera sees it.
#pragma once

#include "sim/portrait/face_chart.h"
#include "sim/portrait/face_shadows.h"
#include "sim/portrait/pattern.h"
#include "sim/studio/studio.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace keystead::ui {

/// Places are of the picture, -1..1 to the right and up.
struct FaceLesson {
    struct Line {
        std::vector<Vec2> at;
        bool lit_edge = true; ///< half of the lamp is seen; else the border of two kinds of shadow
    };
    struct Word {
        std::string words; ///< "nose shadow"
        Vec2 at{0.0};      ///< well inside what it names
    };
    struct Box {
        Vec2 low{1e9}, high{-1e9};
        bool empty() const { return low.x > high.x; }
    };

    std::shared_ptr<const Studio> studio; ///< what it was made from
    std::string light;                    ///< id
    std::vector<Line> lines;
    std::vector<Word> words; ///< what matters most first
    Box face;                ///< of what the camera sees of it
    std::vector<Box> eyes;   ///< not to be written over
    PatternReading reading;  ///< of that light alone
};

/// "nose shadow", "cheek turned away", "lit patch"; empty for what is simply lit.
std::string words_of(const ShadowArea& area);

/// `chart` is of the studio's form. Only what the camera sees is told.
FaceLesson teach_face(const std::shared_ptr<const Studio>& studio, std::size_t light,
                      const FaceChart& chart);

} // namespace keystead::ui
