#include "sim/transport/reference_scatter.h"

#include <algorithm>
#include <cmath>

namespace keystead::reference {

namespace {

constexpr float pi_f = 3.14159265F;
constexpr float least_cosine = 1e-3F;               // as the shared text has it
constexpr float tight = 0.72F, tight_share = 0.20F; // skin's second lobe, as the shared text has it

/// Share of paths that follow the highlight.
float lobe_share(const Surface& s, const glm::vec3& to_eye, bool specular) {
    const float nv = glm::dot(s.normal, to_eye);
    if (!specular || nv < least_cosine || s.finish == reflection::finish_hair) return 0.0F;
    if (s.metal) return 1.0F;
    if (s.f0 <= 0.0F) return 0.0F;
    const float mirrored = s.f0 + (1.0F - s.f0) * reflection_float::grazing(nv);
    const float matt = glm::dot(s.albedo, glm::vec3(0.2126F, 0.7152F, 0.0722F));
    return std::clamp(mirrored / (mirrored + matt), 0.15F, 0.9F);
}

float lobe_density(float roughness, float nv, float nh) {
    const float a2 = roughness * roughness * roughness * roughness;
    const float d = nh * nh * (a2 - 1.0F) + 1.0F;
    return a2 / (pi_f * d * d) * 0.5F / (nv + std::sqrt(a2 + (1.0F - a2) * nv * nv));
}

void axes_about(const glm::vec3& n, glm::vec3& across, glm::vec3& along) {
    // Duff et al., "Building an orthonormal basis, revisited", 2017.
    const float sign = std::copysign(1.0F, n.z);
    const float a = -1.0F / (sign + n.z), b = n.x * n.y * a;
    across = {1.0F + sign * n.x * n.x * a, sign * b, -sign * n.x};
    along = {b, sign + n.y * n.y * a, -n.y};
}

glm::vec3 visible_normal(const glm::vec3& v, float alpha, float u1, float u2) {
    const glm::vec3 stretched = glm::normalize(glm::vec3(alpha * v.x, alpha * v.y, v.z));
    const float across2 = stretched.x * stretched.x + stretched.y * stretched.y;
    const glm::vec3 t1 = across2 > 1e-12F
                             ? glm::vec3(-stretched.y, stretched.x, 0.0F) / std::sqrt(across2)
                             : glm::vec3(1.0F, 0.0F, 0.0F);
    const glm::vec3 t2 = glm::cross(stretched, t1);
    const float r = std::sqrt(u1), turn = 2.0F * pi_f * u2;
    const float a = r * std::cos(turn), half = 0.5F * (1.0F + stretched.z);
    const float b =
        (1.0F - half) * std::sqrt(std::max(0.0F, 1.0F - a * a)) + half * r * std::sin(turn);
    const glm::vec3 n =
        a * t1 + b * t2 + std::sqrt(std::max(0.0F, 1.0F - a * a - b * b)) * stretched;
    return glm::normalize(glm::vec3(alpha * n.x, alpha * n.y, std::max(1e-6F, n.z)));
}

} // namespace

glm::vec3 reflected(const Surface& s, const glm::vec3& to_eye, const glm::vec3& to_light,
                    bool specular) {
    glm::vec3 sum = reflection_float::reflection(s, to_eye, to_light, specular, false,
                                                 s.finish == reflection::finish_hair);
    if (s.finish == reflection::finish_eye && specular) {
        const float nl = glm::dot(s.normal, to_light);
        if (nl > 0.0F) sum += reflection_float::specular_reflection(s, to_eye, to_light, nl);
    }
    return sum;
}

float scatter_density(const Surface& s, const glm::vec3& to_eye, const glm::vec3& to_light,
                      bool specular) {
    const float nl = glm::dot(s.normal, to_light);
    if (nl <= 0.0F) return 0.0F;
    const float share = lobe_share(s, to_eye, specular);
    const float matt = (1.0F - share) * nl / pi_f;
    if (share <= 0.0F) return matt;
    const float nv = glm::dot(s.normal, to_eye);
    const float nh = glm::clamp(glm::dot(s.normal, glm::normalize(to_light + to_eye)), 0.0F, 1.0F);
    float lobe = lobe_density(s.roughness, nv, nh);
    if (s.finish == reflection::finish_skin)
        lobe =
            (1.0F - tight_share) * lobe + tight_share * lobe_density(tight * s.roughness, nv, nh);
    return matt + share * lobe;
}

glm::vec3 scattered(const Surface& s, const glm::vec3& to_eye, bool specular, float lobe, float u,
                    float v) {
    glm::vec3 across, along;
    axes_about(s.normal, across, along);
    const float share = lobe_share(s, to_eye, specular);
    if (lobe >= share) {
        const float r = std::sqrt(u), turn = 2.0F * pi_f * v;
        return r * std::cos(turn) * across + r * std::sin(turn) * along +
               std::sqrt(std::max(0.0F, 1.0F - u)) * s.normal;
    }
    float roughness = s.roughness;
    if (s.finish == reflection::finish_skin && lobe < tight_share * share) roughness *= tight;
    const glm::vec3 local(glm::dot(to_eye, across), glm::dot(to_eye, along),
                          glm::dot(to_eye, s.normal));
    const glm::vec3 h = visible_normal(local, roughness * roughness, u, v);
    const glm::vec3 half = h.x * across + h.y * along + h.z * s.normal;
    return glm::normalize(2.0F * glm::dot(to_eye, half) * half - to_eye);
}

} // namespace keystead::reference
