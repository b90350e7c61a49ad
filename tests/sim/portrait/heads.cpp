#include "heads.h"

#include "sim/subject/measures.h"

namespace heads {

namespace {

Head build(const std::string& preset, double brow_mm = 0.0, double eye_mm = 0.0) {
    keystead::Subject subject;
    subject.proportions.preset = preset;
    subject.proportions.brow_depth_mm = brow_mm;
    subject.proportions.eye_depth_mm = eye_mm;
    Head head;
    head.name = preset;
    head.form = keystead::build_subject(subject);
    head.chart = keystead::make_face_chart(head.form);
    return head;
}

} // namespace

const Head& mean_male() {
    static const Head head = build("mean-male");
    return head;
}

const Head& mean_female() {
    static const Head head = build("mean-female");
    return head;
}

const std::vector<Head>& presets() {
    static const std::vector<Head> six = [] {
        std::vector<Head> built;
        for (const char* preset : {"mean-male", "mean-female", "small-male", "small-female",
                                   "large-male", "large-female"}) {
            keystead::Subject subject;
            subject.proportions.preset = preset;
            subject.stature_m = keystead::preset_stature_m(preset);
            subject.hair_style = keystead::HairStyle::none;
            Head head{preset, keystead::build_subject(subject), nullptr};
            head.chart = keystead::make_face_chart(head.form);
            built.push_back(std::move(head));
        }
        return built;
    }();
    return six;
}

const Head& deep_eyed() {
    static const Head head = build("mean-male", 4.0, 4.0);
    return head;
}

} // namespace heads
