#include "heads.h"

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

const Head& deep_eyed() {
    static const Head head = build("mean-male", 4.0, 4.0);
    return head;
}

} // namespace heads
