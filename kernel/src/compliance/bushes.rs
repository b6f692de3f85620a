//! What gives way at an axle, from its layout: made once, asked at every position.

use crate::axle::Axle;
use crate::frame::{Vec3, mirror};
use crate::layout::{Anchor, Bush, Layout, Part, SubframeMount};
use crate::linkage::{Constraint, Linkage, Row};
use nalgebra::{Matrix3, Matrix6};

/// Everything that gives way at an axle.
#[derive(Clone, Debug, PartialEq)]
pub struct Bushes {
    /// Of each guiding row, left and right, each as of a left wheel.
    pub(super) ends: [[End; 5]; 2],
    /// Stiffness of all the subframe's mounts, about the origin, in the car's axes (N and N·mm per mm and rad); `None` without a subframe.
    pub(super) mounts: Option<Matrix6<f64>>,
    /// The rack against its housing, mm/N.
    pub(super) rack: f64,
}

/// What gives way of one guiding row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct End {
    /// How its body end gives way under a force there, mm/N: K⁻¹ of the bush, in the axes of a left wheel's car.
    pub give: Matrix3<f64>,
    /// How the member lengthens under tension, mm/N.
    pub along: f64,
    /// True if the subframe carries the body end.
    pub carried: bool,
}

impl Bushes {
    /// Of an axle; `None` if nothing of it gives way.
    pub fn of(axle: &Axle) -> Option<Bushes> {
        let layout = axle.layout();
        axle.gives_way().then(|| Bushes {
            ends: axle.linkages().each_ref().map(|linkage| ends(layout, linkage)),
            mounts: layout.subframe.as_ref().map(|subframe| mounts(&subframe.mounts)),
            rack: layout.stiffness.get(&Anchor::Rack).and_then(|rack| rack.along).map_or(0.0, f64::recip),
        })
    }
}

fn ends(layout: &Layout, linkage: &Linkage) -> [End; 5] {
    let rows = linkage.rows();
    std::array::from_fn(|i| {
        let anchor = Anchor::of(rows[i].member);
        let bush = layout.stiffness.get(&anchor);
        let on_rack = anchor == Anchor::TrackRod && linkage.steered;
        End {
            give: bush.map_or(Matrix3::zeros(), |bush| give(bush, default_axis(linkage, i))),
            along: bush.and_then(|bush| bush.along).map_or(0.0, f64::recip),
            carried: layout.subframe_carries(if on_rack { Anchor::Rack } else { anchor }),
        }
    })
}

/// The axis of a bush that gives none: a wishbone's body axis, the strut's line at rest, of an arm and a track rod x.
fn default_axis(linkage: &Linkage, row: usize) -> Vec3 {
    let rows = linkage.rows();
    let inner = |row: &Row| match row.constraint {
        Constraint::Rod { inner, .. } => inner,
        Constraint::Slide { top, .. } => top,
    };
    match (rows[row].part, &rows[row].constraint) {
        (_, Constraint::Slide { top, foot, .. }) => top - linkage.centre - foot,
        (part @ (Part::LowerWishbone | Part::UpperWishbone), _) => {
            let legs = rows.iter().filter(|row| row.part == part).map(inner);
            legs.reduce(|front, rear| front - rear).unwrap_or_else(Vec3::x)
        }
        _ => Vec3::x(),
    }
}

/// K⁻¹ of a bush with the axis a: (1 − a aᵀ)/radial + a aᵀ/axial.
fn give(bush: &Bush, default_axis: Vec3) -> Matrix3<f64> {
    let (Some(radial), Some(axial)) = (bush.radial, bush.axial) else { return Matrix3::zeros() };
    let a = bush.axis.unwrap_or(default_axis).try_normalize(0.0).unwrap_or_else(Vec3::x);
    Matrix3::from_diagonal_element(radial.recip()) + a * a.transpose() * (axial.recip() - radial.recip())
}

/// Σ Gᵀ k G over the mounts and their mirror images; a mount at r moves by G η = v + ω×r.
fn mounts(left: &[SubframeMount]) -> Matrix6<f64> {
    let places = left.iter().flat_map(|mount| [(mount.at, mount.stiffness), (mirror(mount.at), mount.stiffness)]);
    places.fold(Matrix6::zeros(), |sum, (at, stiffness)| {
        let (k, r) = (Matrix3::from_diagonal(&stiffness), at.cross_matrix());
        let mut mount = Matrix6::zeros();
        mount.fixed_view_mut::<3, 3>(0, 0).copy_from(&k);
        mount.fixed_view_mut::<3, 3>(0, 3).copy_from(&(-k * r));
        mount.fixed_view_mut::<3, 3>(3, 0).copy_from(&(r * k));
        mount.fixed_view_mut::<3, 3>(3, 3).copy_from(&(-r * k * r));
        sum + mount
    })
}
