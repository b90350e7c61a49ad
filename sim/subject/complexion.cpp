#include "sim/subject/complexion.h"

#include "sim/subject/eyes.h"

namespace keystead {

namespace {

void scale_roughness(Mesh& mesh, double factor) {
    for (float& roughness : mesh.roughness) roughness *= static_cast<float>(factor);
}

} // namespace

void apply_oil(Mesh& skin, double oil) {
    scale_roughness(skin, 1.0 - 0.30 * oil);
}

void apply_finish(Mesh& clothing, ClothFinish finish) {
    if (finish == ClothFinish::satin) scale_roughness(clothing, 0.65);
}

void apply_iris(Mesh& eyes, const SubjectForm& form, const Vec3& iris) {
    const Mesh& at_rest = *form.eyes;
    for (std::size_t i = 0; i < at_rest.colours.size(); ++i) {
        const Vec3 p(at_rest.positions_m[i]);
        const Vec3 centre = p.x > 0.0 ? form.landmarks.eye_left : form.landmarks.eye_right;
        eyes.colours[i] = glm::vec3(sculpt::eye_colour((p - centre) * 1000.0, iris));
    }
}

void make_grey_card(Mesh& mesh) {
    mesh.colours.clear();
    mesh.roughness.clear();
}

} // namespace keystead
