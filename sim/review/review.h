// All verdicts on a set: the result contract of the report (JSON keys are stable), the window's
// figures and the findings. A value that can't be known is empty, never a guess.
#pragma once

#include "sim/meter/measured.h"
#include "sim/meter/panel_share.h"
#include "sim/meter/probe_memory.h"
#include "sim/meter/shutter.h"
#include "sim/portrait/pattern.h"
#include "sim/review/bag_needed.h"
#include "sim/review/eyes.h"
#include "sim/review/glasses.h"
#include "sim/review/strays.h"
#include "sim/review/tones.h"
#include "sim/studio/studio.h"
#include "sim/support/stability.h"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace keystead {

struct Sight;

struct SupportReview {
    std::string id;
    Stability stability;
    BagNeeded needed; ///< beside the counterweight, where one is needed
};

struct LightReview {
    std::string id;
    Vec3 position_m{0.0};
    double distance_to_face_m = 0.0;
    Angles face_angles;
    std::optional<double> exposure_lx_s;  ///< flash
    std::optional<double> illuminance_lx; ///< continuous
    std::optional<double> f_number;       ///< at the camera's ISO (and shutter, for continuous)
    std::string reading;
    std::optional<double> stops_from_key;
    double share = 0.0; ///< of the light on the face, 0..1
    double apparent_size_deg = 0.0;
    double penumbra_mm = 0.0; ///< edge width of the nose-tip shadow
    Pattern pattern_if_alone = Pattern::none;
};

struct PortraitReview {
    std::string key; ///< light id; empty when nothing lights the face
    Pattern pattern = Pattern::none;
    Side side = Side::front;
    std::string note;
    Angles face_angles;
    std::optional<LitPatch> lit_triangle;
    std::optional<PatternHold> hold;   ///< filled by the slow pass
    std::optional<PatternHolds> holds; ///< likewise: everything that can be changed alone
    double ring_stops = 0.0, tip_shift_mm = 0.0;
    std::vector<EyeReview> eyes;
    GlassesReview glasses;
    std::string pair;       ///< what the trade calls key and second light together; may be empty
    std::string pair_light; ///< the second
};

struct PanelReview {
    std::string id;
    double exposure_lx_s = 0.0; ///< sent to the face, flat receptor toward the panel, all lights
    std::optional<double> stops_from_key;
    std::string mostly_from; ///< the light that gives most of it; empty where it sends nothing
};

struct ExposureReview {
    /// Dome at the face toward the camera: all lights, off panels and by way of other surfaces.
    std::optional<double> face_f_number;
    double bounce_share = 0.0; ///< of that: what came by way of walls, floor, background and sitter
    /// Flat receptor at the face toward the shadow side: what comes that way, above the key.
    std::optional<double> bounce_stops_from_key;
    double camera_f_number = 8.0;
    std::optional<double> stops_off; ///< + = more light than the camera is set for
    std::optional<double> ratio_key_to_fill;
    std::optional<double> stops_key_over_fill;
    std::optional<double> ratio_lit_to_shadow;
    std::optional<double> stops_lit_to_shadow;
    std::optional<double> key_f_number; ///< flat, toward the key, alone
    /// The other lights in front of the ears, alone, and what panels and other surfaces send on,
    /// added.
    std::optional<double> fill_f_number;
    std::optional<ClippedFace> clipped;
    std::vector<BodyReading> body; ///< head first; empty without a key
};

struct SeparationReview {
    std::string place;                              ///< head_top, hair_left, …
    double inside_stops = 0.0, outside_stops = 0.0; ///< from an 18 % card at camera exposure
    double difference_stops = 0.0, difference_lstar = 0.0;
    std::string verdict;               ///< parts, weak, merges
    std::string inside_is, outside_is; ///< hair, skin, clothing, …; paper, cloth, wall, …
    std::string cause;                 ///< why it merges, in a sentence; empty where it parts
    double inside_reflectance = 0.0, outside_reflectance = 0.0;
    std::string outside_mostly_by; ///< the light that gives most of what is behind
};

struct BackgroundReview {
    std::optional<double> stops_from_key;
    std::optional<double> value_8bit;
    std::optional<double> evenness_stops;
    std::optional<double> darkest_8bit, brightest_8bit; ///< a twentieth left out at either end
    std::vector<BackgroundShadow> shadows;              ///< of the sitter's head
};

/// What a spot meter at the camera reads of a place in the picture, and how far that is from the
/// camera's setting (0: it would come out as a meter's middle grey).
struct SpotReading {
    std::string place;              ///< face, lit side; face, shadow side; background; …
    double luminance_cd_s_m2 = 0.0; ///< flash, and continuous light over the shutter time
    Dial dial;
    std::optional<double> stops_from_camera;
    std::string note; ///< why there is nothing to read; else empty
};

struct FrameReview {
    std::string id, part;
    double in_frame_percent = 0.0;
};

struct RoomReview {
    std::string id, part;
    double clearance_m = 0.0; ///< to the nearest wall or the ceiling; negative: through
    std::string nearest;      ///< ceiling, back wall, …
};

struct SpillReview {
    std::string light, onto;
    double stops_from_key = 0.0;
};

enum class Level { danger, warning, note };

/// One change of the document: `value` is JSON text, put at `path` as error messages write it
/// (`lights[key].support.column.height_m`); one past the end of a list appends.
struct Edit {
    std::string path, value;
};

/// What to do about a finding, ready to be done. `act` is a button's words; no edits: nothing that
/// an edit alone can do.
struct Mend {
    std::string act;
    std::vector<Edit> edits;
};

struct Finding {
    Level level = Level::note;
    std::string code;    ///< stable, e.g. `support-unstable`
    std::string about;   ///< light or panel id, "room", "camera", "subject"
    std::string message; ///< a sentence a colleague would say
    std::string remedy;  ///< what to do, with numbers; may be empty
    Mend mend{};         ///< the first way of the remedy, where an edit can do it
};

struct Review {
    std::string set;
    std::vector<SupportReview> supports;
    std::vector<LightReview> lights;
    std::vector<PanelReview> panels;
    PortraitReview portrait;
    ExposureReview exposure;
    std::vector<PointReading> meter; ///< the face first
    ShutterReading shutter;
    std::vector<SpotReading> spots;
    MeasuredTable measured;
    std::vector<SeparationReview> separation;
    BackgroundReview background;
    std::vector<FrameReview> frame;
    std::vector<RoomReview> room;
    std::vector<SpillReview> spill;
    std::vector<LensAim> lens_aims;
    std::vector<Finding> findings;     ///< worst first
    std::vector<std::string> cautions; ///< always printed
};

struct ReviewOptions {
    bool margins = true; ///< how far the head may turn (about half a second, unless remembered)
    /// Try where a light that is not there yet would mend a finding; done with the margins anyway.
    bool searches = false;
    bool bounce = true; ///< light by way of walls, floor and so on; false: as in a black room
};

/// What one review leaves for the next, so that an edit recomputes only what it touched. Each entry
/// carries the key of the inputs it was computed from. Not for several threads at once.
struct ReviewMemory {
    struct Statics {
        std::uint64_t key = 0;
        Stability stability;
        BagNeeded needed;
    };
    struct Alone {
        std::uint64_t key = 0; ///< light geometry, subject, everything that can shade
        double exposure = 0.0; ///< flat at the face, for an exitance of 1
    };
    struct Face {
        std::uint64_t open_key = 0; ///< light geometry, subject
        std::shared_ptr<const LightOnFace> open;
        std::uint64_t key = 0; ///< and what stands between them
        std::shared_ptr<const LightOnFace> light;
    };
    std::uint64_t form_key = 0;
    std::shared_ptr<const FaceChart> chart;
    struct OnPanels {
        std::uint64_t key = 0; ///< the light, the panels and what may stand between them
        std::shared_ptr<const PanelLights> light;
    };
    std::map<std::string, OnPanels> panels; ///< by light id
    std::map<std::string, Statics> statics; ///< by light id
    std::map<std::string, Alone> alone;     ///< by light id
    std::map<std::string, Face> faces;      ///< by light id

    std::uint64_t hold_key = 0; ///< geometry of the key, and the subject
    std::optional<PatternHolds> holds;

    ProbeMemory probes; ///< what meters and surfaces got of each light

    /// Rays from the camera, while `sight_key` stays.
    struct EyeRays {
        std::unordered_map<std::uint64_t, RayHit> hits; ///< by direction and mask
        std::unordered_map<std::uint64_t, bool> hidden; ///< by point
    };
    std::uint64_t sight_key = 0; ///< the whole scene and the camera
    std::shared_ptr<const Sight> sight;
    EyeRays eye;
    std::optional<std::vector<FrameReview>> frame;

    int computed = 0; ///< entries computed anew in the last review, for tests
};

/// All passes. With `memory`, unchanged statics, readings, patterns and views are taken from it and
/// it is updated; without, everything is computed.
Review review_set(const Studio& studio, const ReviewOptions& options = {},
                  ReviewMemory* memory = nullptr);

/// The report of the command line: stable keys; unknown values null.
std::string review_json(const Review& review);
/// The same in sentences.
std::string review_text(const Review& review);

} // namespace keystead
