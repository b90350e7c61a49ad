// Light by way of one panel: off a white board, off silver cloth, through a scrim. One bounce.
//
// Each lit leaf is cut into small areas of about equal size. An area gets E = ∫ L cosθ dω from the
// emitter and sends on, to its own side, rho E / pi (matt) or the GGX lobe of a rough metal
// (silver), and to its other side, through the cloth, tau E / pi (a perfect diffuser).
#pragma once

#include "sim/light/emitter.h"
#include "sim/light/meter.h"
#include "sim/support/panel_pose.h"
#include "sim/transport/ray_scene.h"

#include <span>
#include <vector>

namespace keystead {

/// What a panel does to light.
struct PanelSurface {
    double reflectance = 0.8;  ///< luminous; silver: at normal incidence
    double transmission = 0.0; ///< luminous, diffused
    bool silver = false;
    double roughness = 0.45; ///< of silver, perceptual
    double thickness_m = 0.0;
};

/// Crumpled silver cloth spreads light over some 20 degrees: judged on photographs, no source.
inline constexpr double silver_roughness = 0.45;
inline constexpr double board_thickness_m = 0.025;
inline constexpr double cloth_thickness_m = 0.006;

PanelSurface surface_of(const Panel& panel);

/// One small area of one side of a leaf, lit by one emitter at full power.
struct PanelPatch {
    Vec3 position_m{0.0}; ///< just off the surface
    Vec3 normal{0.0};     ///< of the side
    double area_m2 = 0.0;
    double diffuse = 0.0; ///< radiance that leaves this side in every direction
    /// Silver: unit directions to the light and what came from there, E of each.
    std::vector<std::pair<Vec3, double>> incoming;
};

struct PanelLight {
    std::vector<PanelPatch> patches; ///< in the same places whatever the light
    bool dark = true;                ///< no patch sends anything
    double reflectance = 0.0, roughness = 0.0;
};

struct PanelSampling {
    int patches = 144; ///< of each leaf's side
    int points = 21;   ///< of the emitter
};

/// `rays` may be null: nothing shades the panel. Casters and background do.
PanelLight light_on_panel(const PanelPose& pose, const PanelSurface& surface,
                          const Emitter& emitter, const RayScene* rays,
                          const PanelSampling& sampling = {});

/// Which patches the receptor sees, by patch, 0 or 1: those that it faces, that face it and that
/// nothing hides. The same for every light on that panel.
std::vector<double> patches_seen(const PanelLight& light, const Probe& probe, const RayScene* rays);

/// What the lit panel sends to the receptor: lx·s (flash) or lx, for full power.
double exposure_off_panel(const PanelLight& light, const Probe& probe,
                          std::span<const double> seen);
double exposure_off_panel(const PanelLight& light, const Probe& probe, const RayScene* rays);

} // namespace keystead
