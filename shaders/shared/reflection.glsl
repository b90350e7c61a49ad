// How surfaces reflect: radiance out per irradiance in, times the cosine, per channel.
//
// One text for GLSL and C++ (sim/light/reflection_text.h: float, double and sixteen floats at a
// time). Nothing returns early or branches on a surface's own values, so that sixteen surfaces can
// be answered together: choose(condition, yes, no) stands for it. Plain `bool` parameters hold for
// all of them.
#ifndef KEYSTEAD_CPP
#define Real float
#define Real3 vec3
#define Mask bool
#define Whole int
#define SHARED
#define choose(condition, yes, no) ((condition) ? (yes) : (no))
#endif

struct Surface {
    Real3 position;
    Real3 geometric; // triangle's normal, toward the eye
    Real3 normal;    // smooth normal
    Real3 tangent;   // along the grain; zero where there is none
    Real3 albedo;
    Real roughness;
    Real f0;
    Mask metal;
    Whole finish;
    Whole emitting_light;
};

// GGX with Smith's height-correlated masking (Walter et al. 2007; Heitz 2014), without Fresnel:
// D G / (4 (n.l) (n.v)).
SHARED Real ggx(Real roughness, Real nl, Real nv, Real nh) {
    Real a = roughness * roughness;
    Real a2 = a * a;
    Real d = nh * nh * (a2 - Real(1.0)) + Real(1.0);
    Real distribution = a2 / (Real(3.14159265358979) * d * d);
    Real masking = nl * sqrt(nv * nv * (Real(1.0) - a2) + a2) +
                   nv * sqrt(nl * nl * (Real(1.0) - a2) + a2);
    return distribution * Real(0.5) / max(masking, Real(1e-6));
}

// Schlick, 1994.
SHARED Real grazing(Real lh) {
    Real x = clamp(Real(1.0) - lh, Real(0.0), Real(1.0));
    Real x2 = x * x;
    return x2 * x2 * x;
}

// Strand highlight about a shifted tangent (after Scheuermann's fixed-function form of Marschner
// et al. 2003): sine of the angle to the half vector, to a power.
SHARED Real strand(Real3 tangent, Real3 normal, Real shift, Real3 halfway, Real exponent) {
    Real th = dot(normalize(tangent + normal * shift), halfway);
    return smoothstep(Real(-1.0), Real(0.0), th) *
           pow(sqrt(max(Real(0.0), Real(1.0) - th * th)), exponent);
}

SHARED Real3 hair_reflection(Surface s, Real3 halfway, Real nl) {
    Real3 diffuse = s.albedo / Real(3.14159265358979) * nl;
    // First lobe: the cuticle, white and toward the root; second: through the strand, tinted.
    Real first = Real(0.020) * strand(s.tangent, s.normal, Real(-0.10), halfway, Real(110.0));
    Real second = Real(0.40) * strand(s.tangent, s.normal, Real(0.10), halfway, Real(24.0));
    Real lit = choose(dot(s.tangent, s.tangent) < Real(0.25), Real(0.0),
                      smoothstep(Real(0.0), Real(0.35), nl));
    return diffuse + (Real3(first) + s.albedo * second) * lit;
}

// Diffuse part with the cosine. The wrap is a look, off for anything measured: it spreads red past
// the terminator as skin does; its integral over the sphere is that of the cosine.
SHARED Real3 diffuse_reflection(Surface s, Real cosine, bool skin_wrap) {
    Real3 shade = s.albedo / Real(3.14159265358979);
    Real3 matt = shade * choose(s.metal, Real(0.0), max(cosine, Real(0.0)));
    if (!skin_wrap) {
        return matt;
    }
    Real3 w = Real3(Real(0.10), Real(0.045), Real(0.03));
    Real3 wider = Real3(Real(1.0)) + w;
    Real3 wrapped = shade * max(Real3(Real(0.0)), (Real3(cosine) + w) / (wider * wider));
    return choose(s.finish == finish_skin, wrapped, matt);
}

SHARED Real3 specular_reflection(Surface s, Real3 v, Real3 l, Real nl) {
    Real3 halfway = normalize(l + v);
    Real nv = max(dot(s.normal, v), Real(1e-3));
    Real nh = clamp(dot(s.normal, halfway), Real(0.0), Real(1.0));
    Real edge = grazing(dot(l, halfway));
    Real3 f0 = choose(s.metal, s.albedo, Real3(s.f0));
    Real3 fresnel = f0 + (Real3(Real(1.0)) - f0) * edge;
    Real lobe = ggx(s.roughness, nl, nv, nh);
    // A broad lobe and a tighter one for the oily film; one alone looks like rubber.
    lobe = choose(s.finish == finish_skin,
                  Real(0.80) * lobe + Real(0.20) * ggx(Real(0.72) * s.roughness, nl, nv, nh), lobe);
    return fresnel * lobe * nl;
}

// Both parts, with the cosine. `hair`: some surfaces may be hair. The cornea's highlight is left
// out: it is a mirror, and whoever draws it traces what it shows.
SHARED Real3 reflection(Surface s, Real3 v, Real3 l, bool specular, bool skin_wrap, bool hair) {
    Real cosine = dot(s.normal, l);
    Real nl = max(cosine, Real(0.0));
    Real3 sum = diffuse_reflection(s, cosine, skin_wrap);
    if (!specular) {
        return sum;
    }
    // A card without a surface of its own has no highlight at grazing angles either.
    Mask glossy = (s.metal || s.f0 > Real(0.0)) && nl > Real(0.0) && s.finish != finish_eye;
    Real3 plain = sum + choose(glossy, specular_reflection(s, v, l, nl), Real3(Real(0.0)));
    if (!hair) {
        return plain;
    }
    return choose(s.finish == finish_hair, hair_reflection(s, normalize(l + v), nl), plain);
}

// Share of light that comes evenly from all round which goes toward `v`: what bounced light, known
// as irradiance only, is answered with. The highlight's share is the lobe's integral in Schlick's two
// parts, a polynomial through values found by sampling visible normals: for roughness .12 to 1 right
// within .003 on average for f0 = .04, .03 at worst (tests/sim/light/reflection_text_test.cpp). Hair:
// its lobes' means over both directions.
SHARED Real3 even_reflectance(Surface s, Real3 v, bool specular) {
    Real3 matt = s.albedo * choose(s.metal, Real(0.0), Real(1.0));
    if (!specular) {
        return matt;
    }
    Real x = Real(1.0) - clamp(dot(s.normal, v), Real(0.03), Real(1.0));
    Real x2 = x * x;
    Real x3 = x2 * x;
    Real x5 = x3 * x2;
    Real x8 = x5 * x3;
    // Skin's two lobes are taken for one between them.
    Real r = clamp(choose(s.finish == finish_skin, Real(0.944) * s.roughness, s.roughness),
                   Real(0.12), Real(1.0));
    Real straight =
        Real(0.78741) + r * (Real(1.65943) + r * (Real(-3.45314) + r * Real(1.30691))) +
        x * (Real(0.86429) + r * (Real(-4.72604) + r * (Real(6.51764) - r * Real(2.46981)))) +
        x3 * (Real(-1.81949) + r * (Real(5.66273) + r * (Real(-4.72908) + r * Real(1.25495))));
    Real edge =
        Real(0.01005) + r * (Real(-0.06013) + r * (Real(0.09936) - r * Real(0.0496))) +
        x2 * (Real(-0.26297) + r * (Real(1.64436) + r * (Real(-2.56398) + r * Real(1.19566)))) +
        x5 * (Real(2.28485) + r * (Real(-6.31876) + r * (Real(5.19861) - r * Real(1.11046)))) +
        x8 * (Real(-0.839) + r * (Real(0.96505) + r * (Real(1.643) - r * Real(1.79989))));
    Real3 f0 = choose(s.metal, s.albedo, Real3(s.f0));
    Real3 mirrored = f0 * clamp(straight, Real(0.0), Real(1.0)) + Real3(max(edge, Real(0.0)));
    Real3 plain = matt + choose(s.metal || s.f0 > Real(0.0), mirrored, Real3(Real(0.0)));
    Mask grained = dot(s.tangent, s.tangent) > Real(0.25);
    Real3 strands = s.albedo + choose(grained, Real3(Real(0.0186)) + s.albedo * Real(0.728),
                                      Real3(Real(0.0)));
    return choose(s.finish == finish_hair, strands, plain);
}
