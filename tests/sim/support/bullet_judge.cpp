#include "sim/support/bullet_judge.h"

#include "sim/base/frames.h"

#include <btBulletDynamicsCommon.h>
#include <memory>
#include <vector>

namespace judge {

using namespace keystead;

namespace {

constexpr double step_s = 1.0 / 240.0;
constexpr double ramp_s = 1.0;
constexpr double hold_s = 5.0;
/// Feet are small balls: their surface is exact in Bullet, with no collision margin around it.
constexpr double foot_ball_m = 0.004;
/// Leaning more than this it is on its way down; a standing one leans by thousandths.
constexpr double fallen_deg = 4.0;

btVector3 bullet(const Vec3& v) {
    return {v.x, v.y, v.z};
}

/// A world with a floor and one support on it. Members are torn down in reverse order.
class World {
public:
    explicit World(const SupportPose& pose) {
        world_.getSolverInfo().m_numIterations = 60;
        add(floor_, 0.0, {0, 0, 0}, {0, 0, 0});
        for (const MassPoint& mass : pose.masses) {
            mass_kg_ += mass.mass_kg;
            com_m_ += mass.mass_kg * mass.position_m;
        }
        com_m_ /= mass_kg_;
        for (const Vec3& foot : pose.feet_m) add_foot(foot);
        add(feet_, mass_kg_, bullet(com_m_), inertia_of(pose));
        support_ = bodies_.back().get();
    }
    ~World() {
        for (const auto& body : bodies_) world_.removeRigidBody(body.get());
    }
    World(const World&) = delete;
    World& operator=(const World&) = delete;

    void step(const Vec3& gravity_m_s2_vector, const Vec3& force_n, const Vec3& at_m) {
        world_.setGravity(bullet(gravity_m_s2_vector));
        support_->setGravity(bullet(gravity_m_s2_vector));
        const btVector3 arm = support_->getWorldTransform().getBasis() * bullet(at_m - com_m_);
        support_->applyForce(bullet(force_n), arm);
        world_.stepSimulation(step_s, 0);
    }

    /// Of the column from the vertical; turning on the spot is no fall.
    double leaning_deg() const {
        const btVector3 column = support_->getWorldTransform().getBasis().getColumn(1);
        return degrees(std::atan2(std::hypot(column.x(), column.z()), column.y()));
    }

private:
    void add_foot(const Vec3& foot_m) {
        balls_.push_back(std::make_unique<btSphereShape>(foot_ball_m));
        const Vec3 centre = foot_m + Vec3(0.0, foot_ball_m, 0.0) - com_m_;
        feet_.addChildShape(btTransform(btQuaternion::getIdentity(), bullet(centre)),
                            balls_.back().get());
    }

    /// Diagonal of the inertia of the mass points; when it stands or falls does not depend on it.
    btVector3 inertia_of(const SupportPose& pose) const {
        Vec3 sum(0.0);
        for (const MassPoint& mass : pose.masses) {
            const Vec3 r = mass.position_m - com_m_;
            sum +=
                mass.mass_kg *
                (Vec3(r.y * r.y + r.z * r.z, r.x * r.x + r.z * r.z, r.x * r.x + r.y * r.y) + 0.01);
        }
        return bullet(sum);
    }

    void add(btCollisionShape& shape, double mass_kg, const btVector3& at_m,
             const btVector3& inertia) {
        btRigidBody::btRigidBodyConstructionInfo info(mass_kg, nullptr, &shape, inertia);
        info.m_startWorldTransform.setOrigin(at_m);
        info.m_friction = 10.0; // feet do not slip
        bodies_.push_back(std::make_unique<btRigidBody>(info));
        bodies_.back()->setActivationState(DISABLE_DEACTIVATION);
        world_.addRigidBody(bodies_.back().get());
    }

    btDefaultCollisionConfiguration configuration_;
    btCollisionDispatcher dispatcher_{&configuration_};
    btDbvtBroadphase broadphase_;
    btSequentialImpulseConstraintSolver solver_;
    btDiscreteDynamicsWorld world_{&dispatcher_, &broadphase_, &solver_, &configuration_};
    btStaticPlaneShape floor_{btVector3(0, 1, 0), 0.0};
    btCompoundShape feet_;
    std::vector<std::unique_ptr<btSphereShape>> balls_;
    std::vector<std::unique_ptr<btRigidBody>> bodies_;
    btRigidBody* support_ = nullptr;
    double mass_kg_ = 0.0;
    Vec3 com_m_{0.0};
};

} // namespace

bool falls(const SupportPose& pose, const Load& load) {
    World world(pose);
    const Vec3 toward = direction_from({load.azimuth_deg, 0.0});
    const Vec3 pushed_at_m(pose.hub_m.x, load.push_height_m, pose.hub_m.z);
    for (double time_s = 0.0; time_s < ramp_s + hold_s; time_s += step_s) {
        const double share = std::min(time_s / ramp_s, 1.0);
        const double tilt = radians(share * load.tilt_deg);
        world.step(gravity_m_s2 * (std::sin(tilt) * toward - Vec3(0.0, std::cos(tilt), 0.0)),
                   share * load.push_n * toward, pushed_at_m);
        if (world.leaning_deg() > fallen_deg) return true;
    }
    return false;
}

} // namespace judge
