#include "subject_fixture.h"

namespace subject_test {

using namespace keystead;

Subject mean_subject(bool female, HairStyle style) {
    Subject subject;
    subject.proportions.preset = female ? "mean-female" : "mean-male";
    subject.stature_m = female ? 1.62847 : 1.75621;
    subject.hair_style = style;
    if (female) subject.posture = Posture::seated;
    return subject;
}

const SubjectForm& mean_man() {
    static const SubjectForm form = build_subject(mean_subject(false));
    return form;
}

const SubjectForm& mean_woman() {
    static const SubjectForm form = build_subject(mean_subject(true));
    return form;
}

const SubjectForm& cropped_man() {
    static const SubjectForm form = build_subject(mean_subject(false, HairStyle::cropped));
    return form;
}

std::vector<Vec3> vertices_mm(const Mesh& mesh, Region region) {
    std::vector<Vec3> found;
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i)
        if (mesh.regions[i] == static_cast<std::uint8_t>(region))
            found.push_back(Vec3(mesh.positions_m[i]) * 1000.0);
    return found;
}

} // namespace subject_test
