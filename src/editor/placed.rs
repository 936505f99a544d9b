//! Every object of the shown site with how far it reaches, kept from frame to frame: what
//! is pointer-equal has not changed.

use super::extent::{Extent, extent};
use crate::catalogue::Catalogue;
use crate::site::{Object, ObjectId, Site};
use std::sync::Arc;

/// One object and how far it reaches in plan.
#[derive(Debug, Clone)]
pub(crate) struct PlacedObject {
    pub(crate) id: ObjectId,
    pub(crate) object: Object,
    /// Empty where it depends on something that is gone.
    pub(crate) extent: Extent,
}

/// All objects of a site, in the site's order.
#[derive(Debug, Default)]
pub(crate) struct Placed {
    of: Option<(Arc<Site>, Arc<Catalogue>)>,
    objects: Vec<PlacedObject>,
}

impl Placed {
    /// The objects.
    pub(crate) fn objects(&self) -> &[PlacedObject] {
        &self.objects
    }

    /// Follows the shown site.
    pub(crate) fn follow(&mut self, site: &Arc<Site>, catalogue: &Arc<Catalogue>) {
        let known = self.of.take();
        let same_catalogue = known
            .as_ref()
            .is_some_and(|(_, known)| Arc::ptr_eq(known, catalogue));
        let same_bays = known
            .as_ref()
            .is_some_and(|(known, _)| same(&known.bays, &site.bays));
        let same_site = known
            .as_ref()
            .is_some_and(|(known, _)| Arc::ptr_eq(known, site));
        self.of = Some((Arc::clone(site), Arc::clone(catalogue)));
        if same_site && same_catalogue {
            return;
        }
        let mut before = std::mem::take(&mut self.objects).into_iter().peekable();
        self.objects = objects(site)
            .map(|object| {
                // Where one object was put in or taken out, the lists are out of step until
                // the next kind; then all of that kind are reckoned again, which is cheap.
                let known = before.next_if(|known| known.object.is_same(&object));
                let leans = matches!(object, Object::Opening(_) | Object::Framing(_));
                match known {
                    Some(known) if same_catalogue && (same_bays || !leans) => known,
                    known => {
                        if known.is_none() {
                            before.next_if(|known| known.id == object.id());
                        }
                        PlacedObject {
                            id: object.id(),
                            extent: extent(site, catalogue, &object),
                            object,
                        }
                    }
                }
            })
            .collect();
    }
}

fn same<T>(one: &[Arc<T>], other: &[Arc<T>]) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(a, b)| Arc::ptr_eq(a, b))
}

/// All objects, in the order of [`Site::object_ids`].
fn objects(site: &Site) -> impl Iterator<Item = Object> {
    let grid = site.grid.iter().cloned().map(Object::GridLine);
    let bays = site.bays.iter().cloned().map(Object::Bay);
    let openings = site.openings.iter().cloned().map(Object::Opening);
    let framings = site.framings.iter().cloned().map(Object::Framing);
    let obstructions = site.obstructions.iter().cloned().map(Object::Obstruction);
    let spots = site.work_spots.iter().cloned().map(Object::WorkSpot);
    let sections = site.sections.iter().cloned().map(Object::SectionLine);
    let runs = site.scheme().runs.clone();
    grid.chain(bays)
        .chain(openings)
        .chain(framings)
        .chain(obstructions)
        .chain(spots)
        .chain(sections)
        .chain(runs.into_iter().map(Object::Run))
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::DVec2;
    use crate::site::place::moved;
    use crate::site::{Edit, WorkSpot};
    use crate::units::Length;

    #[test]
    fn following_a_site_equals_beginning_with_it() {
        let catalogue = Arc::new(Catalogue::default());
        let spot = |id: &str, x: f64| {
            Object::WorkSpot(Arc::new(WorkSpot {
                id: id.into(),
                name: String::new(),
                at: DVec2::new(x, 0.0),
                height: Length::metres(1.1),
                activity_met: 1.6,
                clothing_clo: 1.0,
                notes: String::new(),
            }))
        };
        let put = Edit::Put;
        let edits = [
            put(spot("W1", 1.0)),
            put(spot("W2", 2.0)),
            put(spot("W3", 3.0)),
            put(moved(&spot("W2", 2.0), DVec2::Y)),
            Edit::Remove(ObjectId::WorkSpot("W1".into())),
            put(spot("W1", 5.0)),
        ];
        let mut site = Arc::new(Site::default());
        let mut placed = Placed::default();
        for edit in edits {
            site = Arc::new(edit.apply(&site).unwrap());
            placed.follow(&site, &catalogue);
            let ids: Vec<ObjectId> = placed.objects().iter().map(|it| it.id.clone()).collect();
            assert_eq!(ids, site.object_ids());
            for it in placed.objects() {
                assert_eq!(site.object(&it.id).as_ref(), Some(&it.object));
                assert_eq!(it.extent, extent(&site, &catalogue, &it.object));
            }
        }
    }
}
