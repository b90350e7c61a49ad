#include "sim/subject/measures.h"

#include <algorithm>

namespace keystead::sculpt {

namespace {

Measures female_means() {
    Measures m;
    m.female = true;
    m.stature = 1628.47, m.sitting_height = 856.63, m.tragion_top = 126.48;
    m.eye_height_sitting = 747.69, m.acromial_height = 1335.1;
    m.head_length = 189.82, m.head_breadth = 147.77;
    m.head_girth = 561.12;
    m.bizygomatic = 133.77, m.bigonial = 106.0;
    m.menton_sellion = 113.09, m.subnasale_sellion = 48.2, m.stomion_menton = 44.5;
    m.nose_protrusion = 19.8, m.nose_breadth = 33.2, m.lip_length = 48.0;
    m.interpupillary = 61.708;
    m.ear_length = 59.4, m.ear_breadth = 33.2;
    m.neck_girth = 329.8;
    m.biacromial = 365.35, m.bideltoid = 450.32;
    return m;
}

void override_with(double& value, const std::optional<double>& given, double low, double high) {
    // Outside these bounds the surface would fold; the document's own limits are tighter.
    if (given) value = std::clamp(*given, low, high);
}

} // namespace

Measures preset_measures(const std::string& preset) {
    return preset == "mean-female" ? female_means() : Measures{};
}

Measures measures_of(const Subject& subject) {
    Measures m = preset_measures(subject.proportions.preset);
    const double mean_stature = m.stature;
    m.stature = std::clamp(subject.stature_m * 1000.0, 1200.0, 2200.0);
    const double scale = m.stature / mean_stature;
    const double eye_below_top = m.sitting_height - m.eye_height_sitting;
    m.sitting_height *= scale;
    m.eye_height_sitting = m.sitting_height - eye_below_top;
    m.acromial_height *= scale;
    m.biacromial *= scale;
    m.bideltoid *= scale;
    const Proportions& p = subject.proportions;
    const double mean_head = m.head_length + m.head_breadth;
    override_with(m.head_length, p.head_length_mm, 160, 235);
    override_with(m.head_breadth, p.head_breadth_mm, 125, 185);
    // The girth follows length and breadth, which are the only ones the document has.
    m.head_girth *= (m.head_length + m.head_breadth) / mean_head;
    override_with(m.bizygomatic, p.bizygomatic_mm, 112, 168);
    override_with(m.bigonial, p.bigonial_mm, 85, 145);
    override_with(m.menton_sellion, p.menton_sellion_mm, 92, 148);
    override_with(m.nose_protrusion, p.nose_protrusion_mm, 12, 32);
    override_with(m.nose_breadth, p.nose_breadth_mm, 24, 52);
    override_with(m.interpupillary, p.interpupillary_mm, 52, 76);
    override_with(m.neck_girth, p.neck_girth_mm, 270, 500);
    override_with(m.biacromial, p.biacromial_mm, 300, 480);
    override_with(m.bideltoid, p.bideltoid_mm, 370, 640);
    m.brow_depth = std::clamp(p.brow_depth_mm, -4.0, 4.0);
    m.eye_depth = std::clamp(p.eye_depth_mm, -4.0, 4.0);
    m.seated = subject.posture == Posture::seated;
    m.seat_height = std::clamp(subject.seat_height_m * 1000.0, 200.0, 900.0);
    return m;
}

} // namespace keystead::sculpt
