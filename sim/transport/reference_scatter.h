// Which way paths go on from surfaces, and how likely those ways were; sixteen at a time.
#pragma once

#include "sim/light/reflection_text.h"
#include "sim/transport/path_lamp.h"

namespace keystead::reference {

using namespace path_lanes;

using Surface = reflection_lanes::Surface;

inline constexpr float least_cosine = 1e-3F; // as the shared text has it
// Skin's second lobe, as the shared text has it.
inline constexpr float tight = 0.72F, tight_share = 0.20F;

/// Whole reflection of the shared text with the cosine, the cornea's highlight included.
KEYSTEAD_INLINE V16 reflected(const Surface& s, const V16& to_eye, const V16& to_light,
                              bool specular) {
    const bool hair = lanes::any(s.finish == lanes::I16(reflection::finish_hair));
    V16 sum = reflection_lanes::reflection(s, to_eye, to_light, specular, false, hair);
    const M16 eye = s.finish == lanes::I16(reflection::finish_eye);
    if (!specular || !lanes::any(eye)) return sum;
    const F16 nl = max(dot(s.normal, to_light), 0.0F);
    return sum + choose(eye && nl > F16(0.0F),
                        reflection_lanes::specular_reflection(s, to_eye, to_light, nl),
                        V16(F16(0.0F)));
}

/// Share of paths that follow the highlight.
KEYSTEAD_INLINE F16 lobe_share(const Surface& s, const F16& nv, bool specular) {
    if (!specular) return F16(0.0F);
    const F16 mirrored = s.f0 + (F16(1.0F) - s.f0) * reflection_lanes::grazing(nv);
    F16 share = clamp(mirrored / (mirrored + luminance(s.albedo) + F16(1e-6F)), 0.15F, 0.9F);
    share = choose(s.metal, F16(1.0F), choose(s.f0 > F16(0.0F), share, F16(0.0F)));
    return choose(nv < F16(least_cosine) || s.finish == lanes::I16(reflection::finish_hair),
                  F16(0.0F), share);
}

KEYSTEAD_INLINE F16 lobe_density(const F16& roughness, const F16& nv, const F16& nh) {
    const F16 a2 = roughness * roughness * roughness * roughness;
    const F16 d = nh * nh * (a2 - F16(1.0F)) + F16(1.0F);
    return a2 / (F16(pi_f) * d * d) * F16(0.5F) / (nv + sqrt(a2 + (F16(1.0F) - a2) * nv * nv));
}

/// Density per steradian of `scattered` for directions `to_light`.
KEYSTEAD_INLINE F16 scatter_density(const Surface& s, const V16& to_eye, const V16& to_light,
                                    bool specular) {
    const F16 nl = max(dot(s.normal, to_light), 0.0F);
    const F16 nv = dot(s.normal, to_eye);
    const F16 share = lobe_share(s, nv, specular);
    const F16 matt = (F16(1.0F) - share) * nl / F16(pi_f);
    const M16 glossy = share > F16(0.0F) && nl > F16(0.0F);
    if (!lanes::any(glossy)) return matt;
    const F16 nh = clamp(dot(s.normal, normalize(to_light + to_eye)), 0.0F, 1.0F);
    const F16 cosine = max(nv, least_cosine);
    F16 lobe = lobe_density(s.roughness, cosine, nh);
    const M16 skin = s.finish == lanes::I16(reflection::finish_skin);
    if (lanes::any(skin))
        lobe = choose(skin,
                      F16(1.0F - tight_share) * lobe +
                          F16(tight_share) * lobe_density(F16(tight) * s.roughness, cosine, nh),
                      lobe);
    return matt + choose(glossy, share * lobe, F16(0.0F));
}

/// Two unit vectors square to n (Duff et al., "Building an orthonormal basis, revisited", 2017).
KEYSTEAD_INLINE void axes_about(const V16& n, V16& across, V16& along) {
    const F16 sign = choose(n.z < F16(0.0F), F16(-1.0F), F16(1.0F));
    const F16 a = F16(-1.0F) / (sign + n.z), b = n.x * n.y * a;
    across = V16(F16(1.0F) + sign * n.x * n.x * a, sign * b, -(sign * n.x));
    along = V16(b, sign + n.y * n.y * a, -n.y);
}

/// Visible normal of the lobe, local frame (Heitz, "Sampling the GGX distribution of visible
/// normals", 2018).
KEYSTEAD_INLINE V16 visible_normal(const V16& v, const F16& alpha, const F16& u1, const F16& u2) {
    const V16 stretched = normalize(V16(alpha * v.x, alpha * v.y, v.z));
    const F16 across2 = stretched.x * stretched.x + stretched.y * stretched.y;
    const M16 level = across2 > F16(1e-12F);
    const F16 inverse = inversesqrt(choose(level, across2, F16(1.0F)));
    const V16 t1 = choose(level, V16(-stretched.y * inverse, stretched.x * inverse, 0.0F),
                          V16(1.0F, 0.0F, 0.0F));
    const V16 t2 = cross(stretched, t1);
    const F16 r = sqrt(u1);
    F16 sine, cosine;
    lanes::sine_cosine_of_turns(u2, sine, cosine);
    const F16 a = r * cosine, half = F16(0.5F) * (F16(1.0F) + stretched.z);
    const F16 b = (F16(1.0F) - half) * sqrt(max(F16(1.0F) - a * a, 0.0F)) + half * r * sine;
    const V16 n = t1 * a + t2 * b + stretched * sqrt(max(F16(1.0F) - a * a - b * b, 0.0F));
    return normalize(V16(alpha * n.x, alpha * n.y, max(n.z, 1e-6F)));
}

/// Unit directions: by the cosine, or along the highlight. `lobe`, `u`, `v`: 0..1.
KEYSTEAD_INLINE V16 scattered(const Surface& s, const V16& to_eye, bool specular, const F16& lobe,
                              const F16& u, const F16& v) {
    V16 across, along;
    axes_about(s.normal, across, along);
    F16 sine, cosine;
    lanes::sine_cosine_of_turns(v, sine, cosine);
    const F16 r = sqrt(u);
    const V16 matt =
        across * (r * cosine) + along * (r * sine) + s.normal * sqrt(max(F16(1.0F) - u, 0.0F));
    const F16 nv = dot(s.normal, to_eye);
    const F16 share = lobe_share(s, nv, specular);
    const M16 shiny = lobe < share;
    if (!lanes::any(shiny)) return matt;
    const M16 tighter =
        s.finish == lanes::I16(reflection::finish_skin) && lobe < F16(tight_share) * share;
    const F16 roughness = s.roughness * choose(tighter, F16(tight), F16(1.0F));
    const V16 local(dot(to_eye, across), dot(to_eye, along), max(nv, least_cosine));
    const V16 h = visible_normal(local, roughness * roughness, u, v);
    const V16 half = across * h.x + along * h.y + s.normal * h.z;
    return choose(shiny, normalize(half * (F16(2.0F) * dot(to_eye, half)) - to_eye), matt);
}

} // namespace keystead::reference
