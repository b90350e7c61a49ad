// The generated heads that patterns are tested on, built once for all tests of this folder.
#pragma once

#include "sim/portrait/pattern.h"
#include "sim/subject/subject.h"

#include <memory>
#include <string>
#include <vector>

namespace heads {

struct Head {
    std::string name;
    keystead::SubjectForm form;
    std::shared_ptr<const keystead::FaceChart> chart;
};

const Head& mean_male();
const Head& mean_female();
/// The six presets at their own statures, bald.
const std::vector<Head>& presets();
/// A man with the brow drawn forward and the eyes set back as far as the document allows.
const Head& deep_eyed();

} // namespace heads
