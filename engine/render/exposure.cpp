#include "sim/light/exposure.h"
#include "engine/render/renderer.h"
#include "sim/light/stops.h"

namespace keystead {

double display_exposure(const Camera& camera, const MeterSettings& meter) {
    // The card's radiance under metered light H is 0.18 H / pi.
    return pi /
           exposure_of_f_number(exact_f_number(camera.f_number), camera.iso, meter.flat_c_lx_s);
}

} // namespace keystead
