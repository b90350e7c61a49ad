#include "sim/subject/measures.h"

#include <algorithm>

namespace keystead::sculpt {

namespace {

struct Statistic {
    double mean, deviation; ///< deviation 0: none published, see `follow`
};
struct Row {
    double Measures::*measure;
    Statistic male, female;
};

constexpr Row table[] = {
    {&Measures::stature, {1756.21, 68.55}, {1628.47, 64.20}},
    {&Measures::sitting_height, {918.29, 35.70}, {856.63, 33.05}},
    {&Measures::eye_height_sitting, {804.51, 0}, {747.69, 0}},
    {&Measures::tragion_top, {131.15, 6.16}, {126.48, 6.55}},
    {&Measures::acromial_height, {1440.7, 0}, {1335.1, 0}},
    {&Measures::head_length, {199.50, 7.02}, {189.82, 7.45}},
    {&Measures::head_breadth, {154.33, 5.53}, {147.77, 5.19}},
    {&Measures::head_girth, {574.37, 0}, {561.12, 0}},
    {&Measures::bizygomatic, {142.62, 6.22}, {133.77, 5.56}},
    {&Measures::bigonial, {116.0, 10.4}, {106.0, 8.9}},
    {&Measures::menton_sellion, {122.64, 6.67}, {113.09, 6.09}},
    {&Measures::subnasale_sellion, {52.0, 4.1}, {48.2, 3.8}},
    {&Measures::philtrum, {15.5, 0}, {13.5, 0}},
    {&Measures::nose_protrusion, {21.1, 2.7}, {19.8, 2.7}},
    {&Measures::nose_breadth, {36.6, 4.1}, {33.2, 3.9}},
    {&Measures::lip_length, {51.1, 4.2}, {48.0, 4.0}},
    {&Measures::interpupillary, {64.016, 3.419}, {61.708, 3.622}},
    {&Measures::brow_overhang, {10.0, 0}, {7.5, 0}},
    {&Measures::ear_length, {64.2, 0}, {59.4, 0}},
    {&Measures::ear_breadth, {36.1, 0}, {33.2, 0}},
    {&Measures::neck_girth, {397.65, 25.78}, {329.80, 19.22}},
    {&Measures::biacromial, {415.68, 19.16}, {365.35, 18.30}},
    {&Measures::bideltoid, {510.42, 32.51}, {450.32, 28.69}},
};

Measures at_deviations(bool female, double deviations) {
    Measures m;
    m.female = female;
    for (const Row& row : table) {
        const Statistic& s = female ? row.female : row.male;
        m.*row.measure = s.mean + deviations * s.deviation;
    }
    return m;
}

double lower_face(const Measures& m) {
    return m.menton_sellion - m.subnasale_sellion;
}

// What the document has no word for, or left out, keeps its ratio to a neighbour that has changed
// since `before`.
void follow(Measures& m, const Measures& before) {
    m.head_girth *= (m.head_length + m.head_breadth) / (before.head_length + before.head_breadth);
    const double head_height = m.tragion_top / before.tragion_top;
    m.ear_length *= head_height, m.ear_breadth *= head_height;
    const double eye_below_top = before.sitting_height - before.eye_height_sitting;
    m.eye_height_sitting = m.sitting_height - eye_below_top * head_height;
    m.philtrum *= lower_face(m) / lower_face(before);
}

// Bounds outside which the surface would fold.
struct Override {
    double Measures::*measure;
    std::optional<double> Proportions::*given;
    double low, high;
};

constexpr Override size_overrides[] = {
    {&Measures::head_length, &Proportions::head_length_mm, 160, 235},
    {&Measures::head_breadth, &Proportions::head_breadth_mm, 125, 185},
    {&Measures::tragion_top, &Proportions::tragion_top_mm, 105, 160},
    {&Measures::bizygomatic, &Proportions::bizygomatic_mm, 112, 168},
    {&Measures::bigonial, &Proportions::bigonial_mm, 85, 145},
    {&Measures::menton_sellion, &Proportions::menton_sellion_mm, 92, 148},
    {&Measures::nose_protrusion, &Proportions::nose_protrusion_mm, 12, 32},
    {&Measures::nose_breadth, &Proportions::nose_breadth_mm, 24, 52},
    {&Measures::lip_length, &Proportions::lip_length_mm, 38, 64},
    {&Measures::interpupillary, &Proportions::interpupillary_mm, 52, 76},
    {&Measures::neck_girth, &Proportions::neck_girth_mm, 270, 500},
    {&Measures::biacromial, &Proportions::biacromial_mm, 300, 480},
    {&Measures::bideltoid, &Proportions::bideltoid_mm, 370, 640},
};

// These have followed the sizes above unless the document says otherwise.
constexpr Override part_overrides[] = {
    {&Measures::ear_length, &Proportions::ear_length_mm, 48, 82},
    {&Measures::ear_breadth, &Proportions::ear_breadth_mm, 26, 48},
    {&Measures::philtrum, &Proportions::philtrum_mm, 9, 23},
};

template <std::size_t N>
void override_with(Measures& m, const Override (&overrides)[N], const Proportions& p) {
    for (const Override& o : overrides)
        if (const auto& given = p.*o.given) m.*o.measure = std::clamp(*given, o.low, o.high);
}

void override_nose_length(Measures& m, const Measures& before, const Proportions& p) {
    m.subnasale_sellion *= m.menton_sellion / before.menton_sellion;
    if (p.nose_length_mm) m.subnasale_sellion = *p.nose_length_mm;
    m.subnasale_sellion =
        std::clamp(m.subnasale_sellion, 0.33 * m.menton_sellion, 0.52 * m.menton_sellion);
}

void scale_body(Measures& m, double stature) {
    const double scale = stature / m.stature;
    const double eye_below_top = m.sitting_height - m.eye_height_sitting;
    m.stature = stature;
    m.sitting_height *= scale;
    m.eye_height_sitting = m.sitting_height - eye_below_top;
    m.acromial_height *= scale;
    m.biacromial *= scale;
    m.bideltoid *= scale;
}

} // namespace

Measures preset_measures(const std::string& preset) {
    const bool female = preset.ends_with("-female");
    const double deviations = preset.starts_with("small-")   ? -2.0
                              : preset.starts_with("large-") ? 2.0
                                                             : 0.0;
    const Measures mean = at_deviations(female, 0.0);
    Measures m = at_deviations(female, deviations);
    follow(m, mean);
    m.acromial_height *= m.stature / mean.stature;
    return m;
}

Measures measures_of(const Subject& subject) {
    Measures m = preset_measures(subject.proportions.preset);
    scale_body(m, std::clamp(subject.stature_m * 1000.0, 1200.0, 2200.0));
    const Proportions& p = subject.proportions;
    const Measures before = m;
    override_with(m, size_overrides, p);
    override_nose_length(m, before, p);
    follow(m, before);
    override_with(m, part_overrides, p);
    m.brow_depth = std::clamp(p.brow_depth_mm, -4.0, 4.0);
    m.eye_depth = std::clamp(p.eye_depth_mm, -4.0, 4.0);
    m.seated = subject.posture == Posture::seated;
    m.seat_height = std::clamp(subject.seat_height_m * 1000.0, 200.0, 900.0);
    return m;
}

} // namespace keystead::sculpt

namespace keystead {

double preset_stature_m(const std::string& preset) {
    return sculpt::preset_measures(preset).stature * 1e-3;
}

} // namespace keystead
