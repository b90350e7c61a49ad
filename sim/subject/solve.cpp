#include "sim/subject/solve.h"

#include "sim/subject/measuring.h"

namespace keystead::sculpt {

namespace {

// One measure and the parameter that moves it.
struct Tie {
    double Shape::*parameter;
    double (*measured)(const Shape&);
    double target;
    double gain; ///< rough millimetres of measure per unit of parameter, to start the secant
    double low, high;
};

void solve_one(Shape& s, const Tie& tie) {
    double& x = s.*tie.parameter;
    double miss = tie.measured(s) - tie.target;
    double slope = tie.gain;
    for (int step = 0; step < 6 && std::abs(miss) > 0.02; ++step) {
        const double before = x;
        // A step may halve or double the guess of the slope, no more: measures have small kinks.
        x = std::clamp(x - miss / slope, tie.low, tie.high);
        if (x == before) return;
        const double now = tie.measured(s) - tie.target;
        const double seen = (now - miss) / (x - before);
        slope = std::clamp(seen, 0.4 * tie.gain, 2.5 * tie.gain);
        miss = now;
    }
}

double nose_breadth_of(const Shape& s) {
    return 2.0 * alare_of(s).x;
}

} // namespace

Shape solved_shape(const Measures& m) {
    Shape s = unsolved_shape(m);
    const Tie ties[] = {
        {&Shape::cranium_half_breadth, head_breadth_of, m.head_breadth, 1.9, 58, 98},
        {&Shape::cranium_up, tragion_top_of, m.tragion_top, 1.0, 78, 92},
        {&Shape::cranium_back, head_length_of, m.head_length, 0.95, 48, 130},
        {&Shape::cranium_fullness, head_girth_of, m.head_girth, 12.0, 1.9, 3.4},
        {&Shape::ridge, brow_overhang_of, m.brow_overhang + m.brow_depth + m.eye_depth, 1.0, -5, 8},
        {&Shape::zygoma, bizygomatic_of, m.bizygomatic, 1.8, -16, 14},
        {&Shape::gonion, bigonial_of, m.bigonial, 1.9, -20, 18},
        {&Shape::nose_protrusion, nose_protrusion_of, m.nose_protrusion, 22.0, 0.45, 1.9},
        {&Shape::nose_breadth, nose_breadth_of, m.nose_breadth, 33.0, 0.65, 1.5},
        {&Shape::neck_radius, neck_girth_of, m.neck_girth, 6.0, -16, 20},
        {&Shape::deltoid_out, bideltoid_of, m.bideltoid, 1.9, -70, 70},
        {&Shape::acromion_out, biacromial_of, m.biacromial, 1.8, -24, 24},
    };
    for (int sweep = 0; sweep < 3; ++sweep) {
        // The heights of root and chin are put where the surface has them, then bent to the
        // measures.
        const Vec3 root = sellion_of(s), chin = menton_of(s);
        const Vec3 base = subnasale_of(s);
        const FaceHeights canonical{s.height(root.y), s.height(base.y), s.height(chin.y)};
        s.menton_behind_sellion = root.z - chin.z;
        s.subnasale_ahead_of_sellion = base.z - root.z;
        set_heights(s, canonical);
        for (const Tie& tie : ties) solve_one(s, tie);
        s.ear_out = ear_shift_of(s);
        s.ear_space = ear_space_of(s);
    }
    return s;
}

} // namespace keystead::sculpt
