/** The demo's build: invented, with round dimensions; it is the axle that hardware-sim simulates. */
export const technician = 'Technician A';
export const title = 'Demo axle, 205 mm ring gear';
