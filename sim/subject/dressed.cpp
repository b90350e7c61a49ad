// Hat and glasses put on a finished form.
#include "sim/shape/content_key.h"
#include "sim/subject/wisps.h"
#include "sim/subject/worn.h"

namespace keystead {

namespace {

std::shared_ptr<const Mesh> shared(Mesh&& mesh) {
    return std::make_shared<const Mesh>(std::move(mesh));
}

void put_on_hat(SubjectForm& form, Mesh& caster, const Hat& hat) {
    const worn::HatSeat seat = worn::seat_of(form, hat);
    Mesh felt = worn::hat_mesh(seat, hat);
    if (form.hair != nullptr && !form.hair->positions_m.empty()) {
        Mesh hair = *form.hair;
        worn::press_hair(hair, seat, false);
        form.hair = shared(std::move(hair));
    }
    worn::press_hair(caster, seat, true);
    append(caster, worn::hat_mesh(seat, hat, worn::Detail::coarse));
    for (const glm::vec3& p : felt.positions_m)
        if (p.y > form.landmarks.hair_top.y) form.landmarks.hair_top = Vec3(p);
    form.hat = shared(std::move(felt));
}

void put_on_glasses(SubjectForm& form, Mesh& caster, const Glasses& glasses) {
    form.lens_surfaces = worn::lenses_of(form, glasses);
    form.lenses = shared(worn::lens_mesh(form.lens_surfaces));
    form.frame = shared(worn::frame_mesh(form, form.lens_surfaces));
    append(caster, worn::frame_mesh(form, form.lens_surfaces, worn::Detail::coarse));
}

} // namespace

SubjectForm dressed(const SubjectForm& form, const Subject& subject) {
    SubjectForm out = form.undressed != nullptr ? *form.undressed : form;
    if (!subject.hat && !subject.glasses) return out;
    out.undressed =
        form.undressed != nullptr ? form.undressed : std::make_shared<const SubjectForm>(form);
    Mesh caster = *out.caster;
    // Glasses are fitted to the face, the hat to the head: neither needs the other.
    if (subject.glasses) put_on_glasses(out, caster, *subject.glasses);
    if (subject.hat) {
        put_on_hat(out, caster, *subject.hat);
        out.strands = shared(wisps_of(out, subject.hair_style));
    }
    out.caster = shared(std::move(caster));
    return out;
}

std::uint64_t form_key(const Subject& subject) {
    ContentKey key;
    key.add(body_key(subject));
    if (subject.hat)
        key.add("hat")
            .add(subject.hat->brim_mm)
            .add(subject.hat->crown_mm)
            .add(subject.hat->tilt_deg);
    if (subject.glasses) {
        const Glasses& g = *subject.glasses;
        key.add("glasses").add(g.lens_width_mm).add(g.lens_height_mm).add(g.bridge_mm);
        key.add(g.lens_radius_mm).add(g.tilt_deg).add(g.wrap_deg);
    }
    return key.value();
}

} // namespace keystead
