// How surfaces reflect: radiance out per irradiance in times cosine, per channel.

struct Surface {
    vec3 position;
    vec3 geometric;  // triangle's normal, toward the eye
    vec3 normal;     // smooth normal
    vec3 tangent;    // along the grain; zero where there is none
    vec3 albedo;
    float roughness;
    float f0;
    bool metal;
    int finish;
    int emitting_light;
};

const float pi = 3.14159265358979;

// GGX with Smith's height-correlated masking (Walter et al. 2007; Heitz 2014), without Fresnel:
// D G / (4 (n.l) (n.v)).
float ggx(float roughness, float nl, float nv, float nh) {
    float a = roughness * roughness;
    float a2 = a * a;
    float d = nh * nh * (a2 - 1.0) + 1.0;
    float distribution = a2 / (pi * d * d);
    float masking = nl * sqrt(nv * nv * (1.0 - a2) + a2) + nv * sqrt(nl * nl * (1.0 - a2) + a2);
    return distribution * 0.5 / max(masking, 1e-6);
}

// Schlick, 1994.
float grazing(float lh) {
    float x = clamp(1.0 - lh, 0.0, 1.0);
    float x2 = x * x;
    return x2 * x2 * x;
}

// Strand highlight about a shifted tangent (after Scheuermann's fixed-function form of Marschner
// et al. 2003): sine of the angle to the half vector, to a power.
float strand(vec3 tangent, vec3 normal, float shift, vec3 halfway, float exponent) {
    float th = dot(normalize(tangent + shift * normal), halfway);
    return smoothstep(-1.0, 0.0, th) * pow(sqrt(max(0.0, 1.0 - th * th)), exponent);
}

vec3 hair_reflection(Surface s, vec3 l, vec3 halfway, float nl) {
    vec3 diffuse = s.albedo / pi * nl;
    if (dot(s.tangent, s.tangent) < 0.25) {
        return diffuse;
    }
    // First lobe: the cuticle, white and toward the root; second: through the strand, tinted.
    float first = 0.020 * strand(s.tangent, s.normal, -0.10, halfway, 110.0);
    float second = 0.40 * strand(s.tangent, s.normal, 0.10, halfway, 24.0);
    float lit = smoothstep(0.0, 0.35, nl);
    return diffuse + lit * (vec3(first) + second * s.albedo);
}

// Diffuse part with the cosine. The wrap is a look, off for anything measured: it spreads red past
// the terminator as skin does; its integral over the sphere is that of the cosine.
vec3 diffuse_reflection(Surface s, float cosine, bool skin_wrap) {
    if (skin_wrap && s.finish == finish_skin) {
        vec3 w = vec3(0.10, 0.045, 0.03);
        return s.albedo / pi * max(vec3(0.0), (vec3(cosine) + w) / ((1.0 + w) * (1.0 + w)));
    }
    return s.metal ? vec3(0.0) : s.albedo / pi * max(cosine, 0.0);
}

vec3 specular_reflection(Surface s, vec3 v, vec3 l, float nl) {
    vec3 halfway = normalize(l + v);
    float nv = max(dot(s.normal, v), 1e-3);
    float nh = clamp(dot(s.normal, halfway), 0.0, 1.0);
    float edge = grazing(dot(l, halfway));
    vec3 f0 = s.metal ? s.albedo : vec3(s.f0);
    vec3 fresnel = f0 + (1.0 - f0) * edge;
    float lobe = ggx(s.roughness, nl, nv, nh);
    if (s.finish == finish_skin) {
        // A broad lobe and a tighter one for the oily film; one alone looks like rubber.
        lobe = 0.80 * lobe + 0.20 * ggx(0.72 * s.roughness, nl, nv, nh);
    }
    return fresnel * lobe * nl;
}

// Both parts, with the cosine.
vec3 reflection(Surface s, vec3 v, vec3 l, bool specular, bool skin_wrap) {
    float cosine = dot(s.normal, l);
    float nl = max(cosine, 0.0);
#ifdef SPECIAL
    if (s.finish == finish_hair && specular) {
        return hair_reflection(s, l, normalize(l + v), nl);
    }
#endif
    vec3 sum = diffuse_reflection(s, cosine, skin_wrap);
    // A card without a surface of its own has no highlight at grazing angles either.
    bool glossy = s.metal || s.f0 > 0.0;
    if (specular && glossy && nl > 0.0 && s.finish != finish_eye) {
        sum += specular_reflection(s, v, l, nl);
    }
    return sum;
}
