/** What the control room of the invented utility has noted of a circuit for when it trips; null: nobody has said. */
export interface CircuitTrip {
  circuit: string; noted_by: string; loses_supply: string | null; isolated_by: string | null; called: string | null
  on_site_h: number | null; repair_h: number | null; recall_h: number | null
}

const DESKS = { West: 'West desk, control room: ext. 4410', East: 'East desk, control room: ext. 4420', North: 'North desk, control room: ext. 4430' }
const CREWS = { West: 'Line duty, Osprey Bench yard: ext. 5130', East: 'Line duty, Larkspur Flat yard: ext. 5140', North: 'Line duty, Blue Heron yard: ext. 5150' }
const called = (region: keyof typeof DESKS): string => `${DESKS[region]}\n${CREWS[region]}\nRating engineer on call: ext. 6020`

const NOBODY_SAID = { loses_supply: null, isolated_by: null, called: null, on_site_h: null, repair_h: null, recall_h: null }

/** Most circuits are told of in full, some in part; of 3420 and 1420 nobody has noted anything. */
export const TRIPS: readonly CircuitTrip[] = [
  {
    circuit: '3410', noted_by: 'M. Tarn, control room', loses_supply: 'Nobody while 2310 and 2320 are in service; Tamarack Gap is then on one feed.',
    isolated_by: 'Breakers 34-1 and 34-2 at Kestrel Fork, 34-7 at Tamarack Gap; line switches 34-1L, 34-7L', called: called('West'),
    on_site_h: 2.5, repair_h: 14, recall_h: 6,
  },
  {
    circuit: '2310', noted_by: 'M. Tarn, control room', loses_supply: 'Nobody while 2320 is in service; with both out Osprey Bench, 14,200 customers, and the 6910 line',
    isolated_by: 'Breaker 23-1 at Kestrel Fork, 23-8 at Osprey Bench; line switches 23-1L, 23-8L', called: called('West'),
    on_site_h: 1.5, repair_h: 10, recall_h: 4,
  },
  {
    circuit: '2320', noted_by: 'M. Tarn, control room', loses_supply: 'Nobody while 2310 is in service; with both out Osprey Bench, 14,200 customers, and the 6910 line',
    isolated_by: 'Breaker 23-2 at Kestrel Fork, 23-9 at Osprey Bench; line switches 23-2L, 23-9L', called: called('West'),
    on_site_h: 1.5, repair_h: 10, recall_h: 4,
  },
  {
    circuit: '2330', noted_by: 'M. Tarn, control room', loses_supply: 'Nobody while 2340 is in service; with both out Cold Anvil, 3,900 customers and a sawmill',
    isolated_by: 'Breaker 23-3 at Osprey Bench, 23-5 at Cold Anvil; line switches 23-3L, 23-5L', called: called('West'),
    on_site_h: 2, repair_h: 10, recall_h: 4,
  },
  {
    circuit: '2340', noted_by: 'J. Sedge, control room', loses_supply: 'Nobody while 2330 is in service; with both out Cold Anvil, 3,900 customers and a sawmill',
    isolated_by: 'Breaker 23-6 at Cold Anvil, 23-11 at Larkspur Flat', called: called('East'), on_site_h: 2, repair_h: null, recall_h: null,
  },
  { ...NOBODY_SAID, circuit: '2350', noted_by: 'J. Sedge, control room', isolated_by: 'Breaker 23-12 at Whetstone Ridge, 23-14 at Blue Heron', called: called('North') },
  {
    circuit: '1410', noted_by: 'J. Sedge, control room', loses_supply: 'Nobody while 1420 is in service; Saddle Pine, 2,600 customers, is then on one feed.',
    isolated_by: 'Breaker 14-1 at Larkspur Flat, 14-2 at Saddle Pine; line switches 14-1L, 14-2L', called: called('East'),
    on_site_h: 1, repair_h: 8, recall_h: 3,
  },
  {
    circuit: '1430', noted_by: 'M. Tarn, control room', loses_supply: 'Nobody while 6910 carries Millrace Creek; above 22 MW its load is shed',
    isolated_by: 'Breaker 14-5 at Millrace Creek, 14-6 at Kestrel Fork; sectionalizer 14-5S at STR 061', called: called('West'),
    on_site_h: 1.5, repair_h: 8, recall_h: 3,
  },
  { ...NOBODY_SAID, circuit: '1150', noted_by: 'J. Sedge, control room', loses_supply: 'Nobody while 2350 is in service', called: called('North'), on_site_h: 1 },
  {
    circuit: '6910', noted_by: 'M. Tarn, control room', loses_supply: 'Juniper, 1,850 customers, water works and clinic; the clinic has its own generator, 48 h of fuel',
    isolated_by: 'Breaker 69-1 at Millrace Creek, 69-2 at Osprey Bench; tap switch 69-J at the Juniper tap', called: called('West'),
    on_site_h: 1, repair_h: 6, recall_h: 2,
  },
]
