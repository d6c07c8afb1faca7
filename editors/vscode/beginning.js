// A design to start from: invented, small, and with everything that the checks need.

module.exports = `finwright 1

# My first rocket. The motor is invented: copy yours from its certified data.
design "First Flight" {
  builder: ""
}

airframe {
  nose { shape: ogive; length: 80 mm; base: 24.8 mm; material: balsa }
  tube body {
    length: 250 mm; outer: 24.8 mm; inner: 24 mm; material: kraft_paper
    fins {
      count: 3; root: 50 mm; tip: 25 mm; span: 40 mm; sweep: 25 mm
      thickness: 1.6 mm; material: balsa; at: 0 mm from back
    }
    mount { bore: 18 mm; outer: 19 mm; length: 70 mm; material: kraft_paper }
    parachute { diameter: 300 mm; mass: 6 g; at: 80 mm from front }
    cord { length: 600 mm; mass: 2 g; at: 100 mm from front }
    lug guide { bore: 3.4 mm; length: 40 mm; wall: 0.3 mm; at: balance; clock: 60 deg }
  }
}

motor a6 {
  code: "A6-4"; diameter: 18 mm; length: 70 mm
  mass: 16 g; propellant: 3.2 g; delay: 4 s
  curve: [0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 5 N, 0.4 s: 0 N]
}

pad rod { rod { diameter: 3 mm; length: 1 m; material: steel }; stop: 50 mm; foot: 300 mm; end: capped }

site field { elevation: 50 m; temperature: 15 °C; wind: 2 m/s; gust: 3 m/s; across: 250 m; people: 10 m }

flight first { motor: a6; pad: rod; guided_by: [guide]; site: field }
`;
